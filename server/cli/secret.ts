/** Asks on the terminal for what is not to be seen; from a pipe, a line at a time. */
import { createInterface } from 'node:readline';
import { Writable } from 'node:stream';

type In = NodeJS.ReadableStream & { readonly isTTY?: boolean };

/** What is typed goes nowhere: neither on the screen nor into the terminal's memory of lines. */
const nowhere = new Writable({ write: (_, __, done) => done() });

export function secrets(
  input: In,
  output: NodeJS.WritableStream,
): (question: string) => Promise<string | undefined> {
  let lines: AsyncIterator<string> | undefined;
  return async (question) => {
    if (input.isTTY !== true) {
      lines ??= createInterface({ input })[Symbol.asyncIterator]();
      return (await lines.next()).value as string | undefined;
    }
    output.write(question);
    const asking = createInterface({ input, output: nowhere, terminal: true, historySize: 0 });
    try {
      return await new Promise<string | undefined>((answered) => {
        asking.once('line', answered);
        asking.once('SIGINT', () => answered(undefined));
        asking.once('close', () => answered(undefined));
      });
    } finally {
      asking.close();
      output.write('\n');
    }
  };
}
