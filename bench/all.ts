/** `npm run bench`: medians, and ratios against a named alternative in the same run. Words choose: `npm run bench -- field`. */
const benches = {
  assess: () => import('./assess.ts'),
  field: () => import('./field.ts'),
  motion: () => import('./motion.ts'),
  heat: () => import('./heat.ts'),
  propose: () => import('./propose.ts'),
  screen: () => import('./screen.ts'),
  trace: () => import('./trace.ts'),
  springs: () => import('./springs.ts'),
  spread: () => import('./spread.ts'),
  'quasi-random': () => import('./quasi-random.ts'),
};

const words = process.argv.slice(2);
for (const [name, load] of Object.entries(benches)) {
  if (words.length > 0 && !words.some((word) => name.includes(word))) continue;
  console.log(`\n${name}`);
  const { bench } = await load();
  await bench((line) => console.log(`  ${line}`));
}
