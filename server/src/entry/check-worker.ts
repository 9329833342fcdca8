// A worker that helps the command line to check many files.
import { parentPort, workerData } from 'node:worker_threads';
import { Inspector } from '../commands/checking/inspector.ts';
import type { Setup } from '../commands/checking/setup.ts';
import type { Answer, Request } from '../commands/checking/workers.ts';
import { colours } from './colours.ts';

/** Messages wait in the port until the first listener is there. */
async function serve(): Promise<void> {
  const inspector = await Inspector.create(workerData as Setup, { colours });
  parentPort?.on('message', (request: Request) => {
    if ('fleet' in request) inspector.meet(request.fleet);
    else answer(request.id, 'survey' in request ? inspector.survey(request.survey) : inspector.check(request.check));
  });
}

function answer(id: number, result: Answer['result']): void {
  parentPort?.postMessage({ id, result } satisfies Answer);
}

void serve();
