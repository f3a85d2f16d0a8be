/** Screen pixels per millimetre of the sheet: lettering of 2.5 mm is then about as tall as the text beside it. */
export const PIXELS_PER_MM = 3.78;
