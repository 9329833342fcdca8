import './common.ts';
import { runAll } from './runner.ts';

export const run = runAll;
