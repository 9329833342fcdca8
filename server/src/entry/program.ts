// The command line and its workers are one script, so that they share its code cache.
import { isMainThread } from 'node:worker_threads';

void (isMainThread ? import('./cli.ts') : import('./check-worker.ts'));
