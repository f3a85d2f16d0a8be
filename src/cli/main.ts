/**
 * The command line. One file per command; each is loaded only when it is asked for, so that the first word comes fast.
 * Results go to standard output, everything said beside them to standard error.
 */
import { Command, CommanderError, Option } from 'commander';
import type { DrawerOptions } from './drawer.ts';
import { exitCodes, WRONG_USAGE } from './exit-codes.ts';
import type { SpreadOptions } from './spread.ts';

const units = (): Option =>
  new Option('--units <system>', 'units of the numbers that are printed')
    .choices(['metric', 'kgf', 'inch'])
    .default('metric');

export async function main(argv: readonly string[]): Promise<number> {
  const program = new Command('stopwright')
    .description('Stop control of older, mechanically injected diesel engines: from survey to verdict.')
    .version('0.1.0')
    .showSuggestionAfterError(true)
    .showHelpAfterError('Try: stopwright --help')
    .exitOverride()
    .addHelpText(
      'after',
      `\nExit codes: ${exitCodes}\n\nExamples:\n  stopwright demo\n  stopwright demo railcar > railcar.json\n  stopwright assess railcar.json\n  stopwright demo short-stroke | stopwright assess -\n`,
    );
  let code = 0;
  program
    .command('assess')
    .description('Answer the three questions for a job and list its findings, worst first.')
    .argument('<job>', 'job file, or - for standard input')
    .option('--json', 'print everything, with the curves, as JSON')
    .option('--no-remedies', 'leave out what would mend each finding')
    .addOption(units())
    .exitOverride()
    .addHelpText(
      'after',
      `\nExamples:\n  stopwright assess railcar.json\n  stopwright assess railcar.json --json\n  stopwright demo short-stroke | stopwright assess - --units inch\n`,
    )
    .action(async (job: string, options: { json?: boolean; remedies: boolean; units: 'metric' | 'kgf' | 'inch' }) => {
      const { assessCommand } = await import('./assess.ts');
      code = await assessCommand(job, options);
    });
  program
    .command('demo')
    .description('List the demonstration jobs, or print one.')
    .argument('[name]', 'railcar, pump-house, ferry, short-stroke or binding-pin')
    .option('--json', 'list the names as JSON')
    .exitOverride()
    .addHelpText('after', `\nExamples:\n  stopwright demo\n  stopwright demo pump-house > pump-house.json\n`)
    .action(async (name: string | undefined, options: { json?: boolean }) => {
      const { demoCommand } = await import('./demo.ts');
      code = demoCommand(name, options);
    });
  program
    .command('field')
    .description('Force and flux linkage of a solenoid from its own dimensions, gap by gap.')
    .argument('[solenoid]', 'solenoid file, or - for standard input')
    .option('--gaps <gap...>', 'gaps from home, in mm unless a unit stands beside; left out: over the stroke')
    .option('--ampere-turns <level...>', 'ampere-turns; left out: up to what the rated volts give')
    .option('--json', 'print the rows as JSON')
    .option('--map', 'print its co-energy map, to be put under "means", "map" of a job')
    .option('--schema', 'print the JSON Schema of solenoid files instead')
    .exitOverride()
    .addHelpText(
      'after',
      `\nExit codes: 0 every solve converged, 3 one did not, 64 wrong usage,\n65 unreadable or incomplete solenoid, 130 stopped by Ctrl-C.\n\nExamples:\n  stopwright field examples/solenoid-railcar.json\n  stopwright field examples/solenoid-railcar.json --gaps 0.5 2 --json\n  stopwright field examples/solenoid-ferry-spare.json --ampere-turns 400\n  stopwright field examples/solenoid-ferry-spare.json --map\n`,
    )
    .action(
      async (
        solenoid: string | undefined,
        options: { gaps?: string[]; ampereTurns?: string[]; json?: boolean; map?: boolean; schema?: boolean },
      ) => {
        const { fieldCommand } = await import('./field.ts');
        code = await fieldCommand(solenoid, options);
      },
    );
  program
    .command('means')
    .description('Hand cable, solenoid, air cylinder: held side by side on one survey.')
    .argument('<job>', 'job file, or - for standard input')
    .option('--json', 'print every row of every means as JSON')
    .addOption(units())
    .exitOverride()
    .addHelpText(
      'after',
      `\nExit codes go by the chosen means.\n\nExamples:\n  stopwright demo ferry | stopwright means -\n  stopwright means railcar.json --json\n`,
    )
    .action(async (job: string, options: { json?: boolean; units: 'metric' | 'kgf' | 'inch' }) => {
      const { meansCommand } = await import('./means.ts');
      code = meansCommand(job, options);
    });
  program
    .command('motion')
    .description('What happens in the first second and the next hour: pull, release, heat.')
    .argument('<job>', 'job file, or - for standard input')
    .option('--csv [run]', 'print the trace of one run: weakest (left out), strongest, diode, zener, none …')
    .option('--json', 'print everything, with every course, as JSON')
    .addOption(units())
    .exitOverride()
    .addHelpText(
      'after',
      `\nExit codes: 0 it comes home in both runs, 2 it does not, 3 not known,\n64 wrong usage, 65 unreadable job.\n\nExamples:\n  stopwright motion railcar.json\n  stopwright motion railcar.json --csv > weakest.csv\n  stopwright demo pump-house | stopwright motion - --csv strongest\n`,
    )
    .action(async (job: string, options: { json?: boolean; csv?: string | true; units: 'metric' | 'kgf' | 'inch' }) => {
      const { motionCommand } = await import('./motion.ts');
      code = await motionCommand(job, options);
    });
  program
    .command('springs')
    .description('The window of the return spring, what fits of a drawer, a spring to order.')
    .argument('<job>', 'job file, or - for standard input')
    .option('--drawer <drawer>', 'drawer file: which of its springs fit, and how to mount them')
    .option('--order', 'reckon a spring to order, with all that a spring-maker must be told')
    .option('--spring <number>', 'which return spring, counted from 1; left out: the first on the lever')
    .option('--json', 'print everything, with the curves, as JSON')
    .addOption(units())
    .exitOverride()
    .addHelpText(
      'after',
      `\nExit codes: 0 the present spring lies in its window, 1 it does not, 2 the window\nis shut, 3 not known, 64 wrong usage, 65 unreadable job or drawer, 130 stopped\nby Ctrl-C with the best so far.\n\nExamples:\n  stopwright springs railcar.json\n  stopwright springs railcar.json --drawer examples/drawer.json\n  stopwright demo pump-house | stopwright springs - --order --units inch\n`,
    )
    .action(
      async (
        job: string,
        options: {
          drawer?: string;
          order?: boolean;
          spring?: string;
          json?: boolean;
          units: 'metric' | 'kgf' | 'inch';
        },
      ) => {
        const { springsCommand } = await import('./springs.ts');
        code = await springsCommand(job, options);
      },
    );
  program
    .command('drawer')
    .description('Which solenoids and cables of a drawer fit a job, and how each must be mounted.')
    .argument('<job>', 'job file, or - for standard input')
    .argument('<drawer>', 'drawer file, or - for standard input')
    .option('--out <folder>', 'write the job with each that fits into this folder')
    .option('--workers <number>', 'threads; left out: as many as the machine has, up to 8')
    .option('--json', 'print everything, with the changes, as JSON')
    .addOption(units())
    .exitOverride()
    .addHelpText(
      'after',
      `\nIts springs are tried by: stopwright springs <job> --drawer <drawer>\n\nExit codes: 0 one of them fits with everything known and as wanted, 1 one fits,\nthin or not known somewhere, 2 none fits, 64 wrong usage, 65 unreadable job or\ndrawer, 130 stopped by Ctrl-C with what was tried so far.\n\nExamples:\n  stopwright drawer railcar.json examples/drawer.json\n  stopwright demo ferry | stopwright drawer - examples/drawer.json --json\n`,
    )
    .action(async (job: string, drawer: string, options: DrawerOptions) => {
      const { drawerCommand } = await import('./drawer.ts');
      code = await drawerCommand(job, drawer, options);
    });
  program
    .command('propose')
    .description('Search for layouts that work: place, direction, hub, arm, connection, spring, conductor.')
    .argument('<job>', 'job file, or - for standard input')
    .option('--json', 'print everything, with the changes, as JSON')
    .option('--seed <number>', 'another seed looks between the places of the first', '1')
    .option('--most <number>', 'how many proposals at most', '5')
    .option('--out <folder>', 'write each proposal as a job file into this folder')
    .option('--drawer <drawer>', 'drawer file: its springs may take the place of the return spring')
    .option('--no-order', 'propose no spring that would have to be ordered')
    .option('--workers <number>', 'threads; left out: as many as the machine has, up to 8')
    .addOption(units())
    .exitOverride()
    .addHelpText(
      'after',
      `\nWhat may be changed, and what stands in the way, is the "space" of the job.\nCtrl-C ends the search and prints the best so far.\n\nExit codes: 0 a proposal holds throughout, 1 the best is thin or not known\nsomewhere, 2 nothing works, 64 wrong usage, 65 unreadable job,\n130 stopped by Ctrl-C.\n\nExamples:\n  stopwright propose railcar.json --drawer examples/drawer.json\n  stopwright demo short-stroke | stopwright propose - --out proposals\n  stopwright propose railcar.json --json --seed 2 --most 3\n`,
    )
    .action(
      async (
        job: string,
        options: {
          json?: boolean;
          seed: string;
          most: string;
          out?: string;
          drawer?: string;
          order: boolean;
          workers?: string;
          units: 'metric' | 'kgf' | 'inch';
        },
      ) => {
        const { proposeCommand } = await import('./propose.ts');
        code = await proposeCommand(job, options);
      },
    );
  program
    .command('supply')
    .description('Which conductor the stop circuit needs, in every state of the source.')
    .argument('<job>', 'job file, or - for standard input')
    .option('--json', 'print everything, both systems of sections, as JSON')
    .addOption(
      program
        .createOption('--units <system>', 'units of the numbers that are printed; inch lists wire gauges')
        .choices(['metric', 'kgf', 'inch'])
        .default('metric'),
    )
    .exitOverride()
    .addHelpText(
      'after',
      `\nExit codes go by the conductor as laid.\n\nExamples:\n  stopwright supply railcar.json\n  stopwright supply railcar.json --json\n  stopwright demo pump-house | stopwright supply - --units inch\n`,
    )
    .action(async (job: string, options: { json?: boolean; units: 'metric' | 'kgf' | 'inch' }) => {
      const { supplyCommand } = await import('./supply.ts');
      code = await supplyCommand(job, options);
    });
  program
    .command('trace')
    .description('What a recorded current (clamp meter, oscilloscope) shows of a pull-in.')
    .argument('<trace>', 'CSV file of time and current, or - for standard input')
    .argument('[job]', 'job file: its kind of coil and its reckoned times')
    .option('--channel <name>', 'column of the current, by name or number')
    .option('--amps-per-volt <number>', 'what one volt of the clamp means: 10 for 100 mV/A')
    .option('--interval <time>', 'time between samples, where the file has none')
    .option('--json', 'print everything as JSON')
    .exitOverride()
    .addHelpText(
      'after',
      `\nExit codes: 0 came home, 1 came home but not for sure, 2 did not come home or\ndid not stay, 3 cannot be told, 64 wrong usage, 65 unreadable trace or job.\n\nExamples:\n  stopwright trace examples/trace-two-windings.csv\n  stopwright trace examples/trace-two-windings.csv --channel Clamp --json\n`,
    )
    .action(
      async (
        trace: string,
        job: string | undefined,
        options: { channel?: string; ampsPerVolt?: string; interval?: string; json?: boolean },
      ) => {
        const { traceCommand } = await import('./trace.ts');
        code = await traceCommand(trace, job, options);
      },
    );
  program
    .command('spread')
    .description('How sure the findings are when every reading may be off by its ±.')
    .argument('<job>', 'job file, or - for standard input')
    .option('--draws <number>', 'how many times the document is drawn; left out: 8192')
    .option('--seed <number>', 'the same seed gives the same draws; left out: 1')
    .option('--written-only', 'readings without a written ± are exact')
    .option('--share <instrument=part...>', 'readings of one instrument share this part of their error: caliper=0.5')
    .option('--quick', 'leave out what matters and what would mend')
    .option('--workers <number>', 'threads; left out: as many as the machine has, up to 8')
    .option('--json', 'print everything, with histograms, as JSON')
    .addOption(units())
    .exitOverride()
    .addHelpText(
      'after',
      `\nExit codes: 0 no finding fails in more than 1 % of draws, 1 one does, 2 one fails\nin most, 3 not known, 64 wrong usage, 65 unreadable job, 130 stopped by Ctrl-C.\n\nExamples:\n  stopwright spread railcar.json\n  stopwright spread railcar.json --draws 1024 --quick\n  stopwright demo railcar | stopwright spread - --share caliper=0.5 --json\n`,
    )
    .action(async (job: string, options: SpreadOptions) => {
      const { spreadCommand } = await import('./spread.ts');
      code = await spreadCommand(job, options);
    });
  program
    .command('schema')
    .description('Print the JSON Schema of job documents.')
    .exitOverride()
    .action(async () => {
      const { schemaCommand } = await import('./schema.ts');
      code = schemaCommand();
    });
  try {
    await program.parseAsync([...argv], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : WRONG_USAGE;
    throw error;
  }
}

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // The reader of a pipe may close it early (head): that is no fault of ours.
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

process.exitCode = await main(process.argv.slice(2));
