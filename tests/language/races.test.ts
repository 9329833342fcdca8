// Files may be slow to come, and authors are not: whatever happens while one is read, nothing older may win.
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CancellationToken } from 'vscode-languageserver';
import { editsBeforeMove } from '../../server/src/language/moves.ts';
import { Workspace } from '../../server/src/language/workspace.ts';
import { SlowHost } from './slow-files.ts';

const FIXTURE = new URL('fixtures/site/', import.meta.url);
const WELL = '/site/wells/a2-07.yaml';
const MOTOR = '/site/equipment/motor.yaml';
const LOW_TAP = ['{ tap: 2, voltage: 900 V }', '{ tap: 1, voltage: 600 V }'] as const;

/** A workspace over the files of the site, none of which has been looked at. */
function makeWorkspace() {
  const host = new SlowHost();
  for (const name of readdirSync(FIXTURE, { recursive: true, encoding: 'utf8' })) {
    if (name.endsWith('.yaml')) host.texts.set(`/site/${name}`, readFileSync(new URL(name, FIXTURE), 'utf8'));
  }
  const workspace = new Workspace(host);
  workspace.openFolders(['/site']);
  return { host, workspace, well: host.texts.get(WELL) ?? '' };
}

function open(workspace: Workspace, path: string, text: string): void {
  workspace.open.open({ uri: `file://${path}`, languageId: 'yaml', version: 1, text });
  workspace.touch(path);
}

/** Ends the work in hand, with all files coming at once. */
async function workOff({ host, workspace }: { host: SlowHost; workspace: Workspace }): Promise<void> {
  host.isSlow = false;
  while (workspace.closed.hasWork) {
    host.release();
    await workspace.closed.workSlice(() => 0);
  }
}

/** Turns of the loop in which whatever can go on does. */
async function aWhile(): Promise<void> {
  for (let turn = 0; turn < 20; turn++) await new Promise((resolve) => setImmediate(resolve));
}

function codes(findings: readonly { readonly check: string }[] | undefined): readonly string[] {
  return (findings ?? []).map(({ check }) => check);
}

describe('a document that is opened while its file is read for a check', () => {
  it.each([
    ['its own text', WELL],
    ['a data sheet that it needs', MOTOR],
  ])('keeps the text of its editor, be it %s that comes late', async (_, late) => {
    const { host, workspace, well } = makeWorkspace();
    await workspace.closed.find();
    host.isSlow = true;
    const slice = workspace.closed.workSlice(() => 0);
    while (!host.reading.includes(late)) {
      await aWhile();
      if (!host.reading.includes(late)) host.release();
    }
    const text = well.replace(...LOW_TAP);
    open(workspace, WELL, text);
    const settled = workspace.settle();
    await aWhile();
    host.isSlow = false;
    host.release();
    await Promise.all([settled, slice]);
    await workOff({ host, workspace });
    expect(workspace.document(WELL)?.source.text).toBe(text);
    expect(codes(workspace.check(WELL)?.findings)).toContain('tap.below-window');
    expect(workspace.closed.get(WELL)).toBeUndefined();
  });

  it('is never out of sight for one who asks', async () => {
    const { host, workspace, well } = makeWorkspace();
    await workspace.closed.find();
    host.isSlow = true;
    const working = (async () => {
      while (workspace.closed.hasWork) await workspace.closed.workSlice(() => 0);
    })();
    open(workspace, WELL, well);
    const settled = workspace.settle();
    const asking = (async () => {
      await settled;
      for (let turn = 0; turn < 200; turn++) {
        await new Promise((resolve) => setImmediate(resolve));
        await workspace.settle();
        expect(workspace.check(WELL)).toBeDefined();
      }
    })();
    for (let turn = 0; turn < 200; turn++) {
      await aWhile();
      host.release();
    }
    host.isSlow = false;
    host.release();
    await Promise.all([working, asking]);
  });

  it('stays known though there is no such file yet', async () => {
    const { host, workspace, well } = makeWorkspace();
    const path = '/site/wells/new.yaml';
    host.texts.set(path, well);
    await workspace.closed.find();
    await workOff({ host, workspace });
    host.texts.delete(path);
    workspace.touch(path);
    await workspace.settle();
    host.isSlow = true;
    const working = workspace.closed.workSlice(() => 0);
    await aWhile();
    expect(host.reading).toContain(path);
    open(workspace, path, well);
    const settled = workspace.settle();
    await aWhile();
    host.isSlow = false;
    host.release();
    await Promise.all([working, settled]);
    await workOff({ host, workspace });
    expect(workspace.document(path)?.source.text).toBe(well);
  });
});

describe('a file that changes while it is read', () => {
  it('is read again', async () => {
    const { host, workspace, well } = makeWorkspace();
    open(workspace, WELL, well);
    await workspace.settle();
    host.isSlow = true;
    workspace.touch(MOTOR);
    const settled = workspace.settle();
    await aWhile();
    expect(host.reading).toEqual([MOTOR]);
    const newer = `${host.texts.get(MOTOR)}# newer\n`;
    host.texts.set(MOTOR, newer);
    workspace.touch(MOTOR);
    host.isSlow = false;
    host.release();
    await settled;
    expect(workspace.document(MOTOR)?.source.text).toBe(newer);
  });

  it('is read again for the check of a document that no editor holds', async () => {
    const { host, workspace } = makeWorkspace();
    workspace.touch(WELL);
    await workspace.settle();
    host.isSlow = true;
    const slice = workspace.closed.workSlice(() => 0);
    while (!host.reading.includes(MOTOR)) {
      host.release();
      await aWhile();
    }
    const newer = `${host.texts.get(MOTOR)}# newer\n`;
    host.texts.set(MOTOR, newer);
    workspace.touch(MOTOR);
    const settled = workspace.settle();
    await aWhile();
    host.isSlow = false;
    host.release();
    await Promise.all([slice, settled]);
    await workOff({ host, workspace });
    expect(workspace.repository.document(MOTOR)?.source.text).toBe(newer);
  });
});

describe('wells that no editor holds', () => {
  it('follow each other’s changes', async () => {
    const { host, workspace, well } = makeWorkspace();
    const other = '/site/wells/b1-01.yaml';
    const named = well.replace('well: A2-07', 'well: B1-01');
    const apart = 'document: installation/1\nsite: { well: B1-01 }\nlift: linear\n';
    host.texts.set(other, apart);
    await workspace.closed.find();
    await workOff({ host, workspace });
    const isTwin = () => codes(workspace.closed.get(WELL)?.findings).some((each) => each.startsWith('identity.'));
    expect(isTwin()).toBe(false);

    host.texts.set(other, named);
    workspace.touch(other);
    await workspace.settle();
    await workOff({ host, workspace });
    expect(isTwin()).toBe(true);

    host.texts.delete(other);
    workspace.touch(other);
    await workspace.settle();
    await workOff({ host, workspace });
    expect(isTwin()).toBe(false);
  });

  it('follow what is typed in another', async () => {
    const { host, workspace, well } = makeWorkspace();
    await workspace.closed.find();
    await workOff({ host, workspace });
    open(workspace, '/site/wells/b1-01.yaml', well);
    await workspace.settle();
    await workOff({ host, workspace });
    expect(codes(workspace.closed.get(WELL)?.findings)).toContain('identity.duplicate-well');
  });

  it('are left out where a policy does so, also when their files change', async () => {
    const { host, workspace, well } = makeWorkspace();
    const left = '/site/wells/b1-01.yaml';
    host.texts.set(left, well);
    host.leavesOut.add(left);
    await workspace.closed.find();
    await workOff({ host, workspace });
    workspace.touch(left);
    await workspace.settle();
    await workOff({ host, workspace });
    expect(workspace.closed.get(left)).toBeUndefined();
    expect(codes(workspace.closed.get(WELL)?.findings)).not.toContain('identity.duplicate-well');

    host.leavesOut.delete(left);
    workspace.touch('/site/setproof.policy.yaml');
    await workspace.settle();
    await workOff({ host, workspace });
    expect(codes(workspace.closed.get(WELL)?.findings)).toContain('identity.duplicate-well');

    host.leavesOut.add(left);
    workspace.touch('/site/setproof.policy.yaml');
    await workspace.settle();
    await workOff({ host, workspace });
    expect(workspace.closed.get(left)).toBeUndefined();
    expect(codes(workspace.closed.get(WELL)?.findings)).not.toContain('identity.duplicate-well');
  });

  it('are forgotten with the folder that they stand in', async () => {
    const { host, workspace } = makeWorkspace();
    await workspace.closed.find();
    await workOff({ host, workspace });
    expect([...workspace.closed.all()].length).toBeGreaterThan(0);
    workspace.openFolders([]);
    await workspace.closed.find();
    await workOff({ host, workspace });
    expect([...workspace.closed.all()]).toEqual([]);
  });
});

describe('a file that is moved just after its new name was written', () => {
  it('leaves nothing to mend, however late the files come', async () => {
    const { host, workspace, well } = makeWorkspace();
    open(workspace, WELL, well);
    await workspace.closed.find();
    await workspace.settle();
    await workOff({ host, workspace });
    host.isSlow = true;
    open(workspace, WELL, well.replace('equipment/motor.yaml', 'equipment/motor-2.yaml'));
    const moved = { oldUri: `file://${MOTOR}`, newUri: 'file:///site/equipment/motor-2.yaml' };
    const edit = editsBeforeMove(workspace, [moved], CancellationToken.None);
    await aWhile();
    host.isSlow = false;
    host.release();
    expect(await edit).toBeNull();
  });
});
