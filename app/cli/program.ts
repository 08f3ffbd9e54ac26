import { Argument, Command, CommanderError, Option } from 'commander';
import packageFile from '../../package.json' with { type: 'json' };
import { cliWords as words } from '../../src/words/cli.ts';
import { courseForms } from '../../src/report/courseSheet/forms.ts';
import { reportCopies, type ReportCopy } from '../../src/report/copies.ts';
import { scales } from '../../src/report/courseSheet/scale.ts';
import type { ClipTyped } from './commands/clip.ts';
import { framesTyped, holdTyped, placeTyped, sharesTyped } from './clipTyped.ts';
import type { CourseAsked } from './commands/course.ts';
import type { SchemaName } from './commands/schema.ts';
import type { Output } from './output.ts';
import { placeOf } from './place.ts';
import { printable, troubleLine } from './trouble.ts';

/** Exit codes of the command line. */
export const exits = { done: 0, badInput: 1, usage: 2, interrupted: 130 } as const;

/**
 * Runs one command.
 * @param args what follows the program's name
 * @returns the exit code: 0 done, 1 bad input (one line on the error stream), 2 usage
 */
export async function run(args: readonly string[], out: Output, signal: AbortSignal): Promise<number> {
  try {
    await program(out, signal).parseAsync(args, { from: 'user' });
    return exits.done;
  } catch (error) {
    // Commander has said what is wrong, or shown the help that was asked for.
    if (error instanceof CommanderError) return error.exitCode === 0 ? exits.done : exits.usage;
    if (signal.aborted) {
      out.remark(words.stopped);
      return exits.interrupted;
    }
    out.remark(troubleLine(error));
    return exits.badInput;
  }
}

interface ReportAsked {
  readonly out: string;
  readonly to: 'html' | 'pdf' | 'both';
  readonly short: boolean;
  readonly copy: ReportCopy;
}

// Each command's module is loaded when it is asked for: help and schema need no ffmpeg and no store.
function program(out: Output, signal: AbortSignal): Command {
  const { commands, options, arguments: named } = words;
  const root = new Command('walkback')
    .description(words.about)
    .version(packageFile.version, '--version', options.version)
    .helpOption('-h, --help', options.help)
    .helpCommand(false)
    .showHelpAfterError(words.moreHelp)
    .configureOutput({
      writeErr: (text) => out.remark(text.trimEnd()),
      outputError: (text, write) => write(printable(text)),
    })
    .exitOverride();

  const add = (name: string, about: string): Command =>
    root.command(name).description(about).helpOption('-h, --help', options.help).copyInheritedSettings(root);

  add('demo', commands.demo)
    .requiredOption('--out <dir>', options.out)
    .action(async ({ out: folder }: { out: string }) => {
      await (await import('./commands/demo.ts')).copyDemo(placeOf(folder), out);
    });
  add('frames', commands.frames)
    .argument('<file>', named.video)
    .option('--json', options.json, false)
    .action(async (file: string, { json }: { json: boolean }) => {
      await (await import('./commands/frames.ts')).printFrames(placeOf(file), json, out, signal);
    });
  add('analyse', commands.analyse)
    .argument('<review>', named.review)
    .option('--json', options.json, false)
    .action(async (file: string, { json }: { json: boolean }) => {
      await (await import('./commands/analyse.ts')).printAnalysis(placeOf(file), json, out);
    });
  add('report', commands.report)
    .argument('<review>', named.review)
    .requiredOption('--out <dir>', options.out)
    .addOption(new Option('--to <form>', options.reportForm).choices(['html', 'pdf', 'both']).default('html'))
    .option('--short', options.short, false)
    .addOption(new Option('--copy <whose>', options.copy).choices(reportCopies).default('student'))
    .action(async (file: string, { out: folder, to, short, copy }: ReportAsked) => {
      const { writeReportOf } = await import('./commands/report.ts');
      const forms = to === 'both' ? (['html', 'pdf'] as const) : [to];
      await writeReportOf(placeOf(file), placeOf(folder), { forms, short, copy }, out, signal);
    });
  add('clip', commands.clip)
    .argument('<review>', named.review)
    .requiredOption('--out <dir>', options.out)
    .addOption(
      new Option('--cross <n>', options.cross).argParser(placeTyped).conflicts(['stretch', 'frames']),
    )
    .addOption(new Option('--stretch <n>', options.stretch).argParser(placeTyped).conflicts('frames'))
    .addOption(new Option('--frames <from-to>', options.frames).argParser(framesTyped))
    .addOption(new Option('--clip <n>', options.clip).argParser(placeTyped).default(1))
    .addOption(new Option('--slow <share>', options.slow).choices(Object.keys(sharesTyped)))
    .addOption(new Option('--hold <frame:seconds>', options.hold).argParser(holdTyped))
    .option('--caption <words>', options.caption, '')
    .option('--bare', options.bare, false)
    .option('--sound', options.sound, false)
    .action(
      async (file: string, { out: folder, slow, ...typed }: ClipTyped & { out: string; slow?: string }) => {
        const { makeClipOf } = await import('./commands/clip.ts');
        const speed = slow === undefined ? {} : { slow: sharesTyped[slow] ?? 1 };
        await makeClipOf(placeOf(file), placeOf(folder), { ...typed, ...speed }, out, signal);
      },
    );
  add('data', commands.data)
    .argument('<review>', named.review)
    .requiredOption('--out <dir>', options.out)
    .action(async (file: string, { out: folder }: { out: string }) => {
      await (await import('./commands/data.ts')).writeDataOf(placeOf(file), placeOf(folder), out);
    });
  add('import', commands.import)
    .argument('<files...>', named.files)
    .option('--library <dir>', options.library)
    .action(async (files: string[], { library }: { library?: string }) => {
      await (await import('./commands/library.ts')).importFiles(files.map(placeOf), library, out, signal);
    });
  add('list', commands.list)
    .option('--library <dir>', options.library)
    .option('--json', options.json, false)
    .action(async ({ library, json }: { library?: string; json: boolean }) => {
      await (await import('./commands/library.ts')).listLibrary(library, json, out);
    });
  add('course', commands.course)
    .argument('<file>', named.course)
    .addOption(new Option('--to <form>', options.to).choices(courseForms).makeOptionMandatory())
    .requiredOption('--out <dir>', options.out)
    .addOption(new Option('--paper <size>', options.paper).choices(['a4', 'a5']).default('a4'))
    .addOption(new Option('--scale <n>', options.scale).choices(scales.map(String)))
    .addOption(new Option('--unit <unit>', options.unit).choices(['metres', 'feet']))
    .action(async (file: string, { out: folder, ...asked }: CourseAsked & { out: string }) => {
      const { exportCourseOf } = await import('./commands/course.ts');
      await exportCourseOf(placeOf(file), placeOf(folder), asked, out);
    });
  add('rules', commands.rules)
    .argument('[book]', named.rules)
    .option('--json', options.json, false)
    .action(async (file: string | undefined, { json }: { json: boolean }) => {
      const path = file === undefined ? undefined : placeOf(file);
      await (await import('./commands/rules.ts')).printRules(path, json, out);
    });
  add('schema', commands.schema)
    .addArgument(
      new Argument('[file]', named.schema).choices(['review', 'course', 'rules', 'dog']).default('review'),
    )
    .action(async (file: SchemaName) => {
      (await import('./commands/schema.ts')).printSchema(file, out);
    });
  return root;
}
