import { processOutput } from './output.ts';
import { run } from './run.ts';

const output = processOutput();
run(process.argv.slice(2), output).then(
  // The process ends by itself, once everything is written.
  (code) => {
    process.exitCode = code;
  },
  async (error: unknown) => {
    process.exitCode = 2;
    await output.error(`shootplan: ${error instanceof Error ? error.stack : String(error)}\n`);
  },
);
