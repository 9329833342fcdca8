// Data sheets that get another name or place, and what names them.
import { describe, expect, it } from 'vitest';
import { applied, type LspClient, PUSHED, positionBehind, type TextEdit } from './client.ts';
import { makeSite, openFile, type Site, startClient, WELL } from './site.ts';

const OTHER = 'wells/b/b1-01.yaml';
const MOTOR = 'equipment/motor.yaml';
const RENAMES = {
  capabilities: {
    ...PUSHED,
    workspace: { workspaceEdit: { documentChanges: true, resourceOperations: ['create', 'rename'] } },
  },
};

type DocumentChange =
  | { readonly kind: 'rename'; readonly oldUri: string; readonly newUri: string }
  | { readonly textDocument: { readonly uri: string; readonly version: number | null }; readonly edits: TextEdit[] };

/** The site with a second well, deeper down, that no editor holds. */
function siteOfTwo(): Site {
  const site = makeSite();
  site.write(
    OTHER,
    site.read(WELL).replace('well: A2-07', 'well: B1-01').replaceAll('../equipment', '../../equipment'),
  );
  return site;
}

async function startAtMotor(site: Site, options = RENAMES) {
  const client = await startClient(site, options);
  const text = site.read(WELL);
  await openFile(client, site, WELL);
  const position = positionBehind(text, 'motor: { datasheet: ../equip');
  return { client, text, place: { textDocument: { uri: site.uri(WELL) }, position } };
}

describe('renaming a data sheet', () => {
  it('moves the file and mends all who name it, each by its own path', async () => {
    const site = siteOfTwo();
    const { client, text, place } = await startAtMotor(site);
    const prepared = await client.request<{ placeholder: string }>('textDocument/prepareRename', place);
    expect(prepared).toMatchObject({ placeholder: '../equipment/motor.yaml' });
    const newName = '../equipment/motors/linear 20 kN.yaml';
    const { documentChanges } = await client.request<{ documentChanges: DocumentChange[] }>('textDocument/rename', {
      ...place,
      newName,
    });
    const rename = documentChanges.at(-1);
    expect(rename).toEqual({
      kind: 'rename',
      oldUri: site.uri(MOTOR),
      newUri: site.uri('equipment/motors/linear 20 kN.yaml'),
    });
    const edited = new Map(
      documentChanges.flatMap((each) => ('edits' in each ? [[each.textDocument.uri, each] as const] : [])),
    );
    const own = edited.get(site.uri(WELL));
    expect(own?.textDocument.version).toBe(1);
    expect(applied(text, own?.edits ?? [])).toBe(text.replace('../equipment/motor.yaml', newName));
    const other = edited.get(site.uri(OTHER));
    expect(other?.textDocument.version).toBeNull();
    expect(other?.edits.map(({ newText }) => newText)).toEqual(['../../equipment/motors/linear 20 kN.yaml']);
  });

  it.each([
    ['../equipment/tx.yaml', /already/],
    ['../../elsewhere/motor.yaml', /leads out of the repository/],
    ['../equipment/motor.txt', /does not end with \.yaml/],
  ])('to %s is refused in words', async (newName, words) => {
    const site = makeSite();
    const client = await startClient(site, RENAMES);
    const text = site.read(WELL);
    await openFile(client, site, WELL);
    const position = positionBehind(text, 'motor: { datasheet: ../equip');
    const params = { textDocument: { uri: site.uri(WELL) }, position, newName };
    await expect(client.request('textDocument/rename', params)).rejects.toThrow(words);
  });

  it('is refused where an editor cannot move files, and where there is nothing to rename', async () => {
    const site = makeSite();
    const client = await startClient(site);
    const text = site.read(WELL);
    await openFile(client, site, WELL);
    const at = (part: string) => ({ textDocument: { uri: site.uri(WELL) }, position: positionBehind(text, part) });
    const rename = { ...at('motor: { datasheet: ../equip'), newName: '../equipment/other.yaml' };
    await expect(client.request('textDocument/rename', rename)).rejects.toThrow(/cannot rename files/);
    expect(await client.request('textDocument/prepareRename', at('lift: lin'))).toBeNull();
  });
});

describe('moving files', () => {
  const willRename = (client: LspClient, files: readonly { oldUri: string; newUri: string }[]) =>
    client.request<{ changes: Record<string, TextEdit[]> } | null>('workspace/willRenameFiles', { files });

  it('mends the users of a data sheet', async () => {
    const site = siteOfTwo();
    const { client } = await startAtMotor(site);
    const edit = await willRename(client, [{ oldUri: site.uri(MOTOR), newUri: site.uri('sheets/m.yaml') }]);
    const written = Object.entries(edit?.changes ?? {}).map(([uri, edits]) => [uri, edits[0]?.newText]);
    expect(Object.fromEntries(written)).toEqual({
      [site.uri(WELL)]: '../sheets/m.yaml',
      [site.uri(OTHER)]: '../../sheets/m.yaml',
    });
  });

  it('mends what a document that moves names itself', async () => {
    const site = siteOfTwo();
    const { client, text } = await startAtMotor(site);
    const edit = await willRename(client, [{ oldUri: site.uri(WELL), newUri: site.uri('wells/b/a2-07.yaml') }]);
    expect(Object.keys(edit?.changes ?? {})).toEqual([site.uri(WELL)]);
    const moved = applied(text, edit?.changes[site.uri(WELL)] ?? []);
    expect(moved).toBe(text.replaceAll('../equipment', '../../equipment'));
  });

  it('follows whole folders, and leaves alone what moves together', async () => {
    const site = siteOfTwo();
    const { client, text } = await startAtMotor(site);
    const folder = await willRename(client, [{ oldUri: site.uri('equipment'), newUri: site.uri('wells/sheets') }]);
    expect(applied(text, folder?.changes[site.uri(WELL)] ?? [])).toBe(text.replaceAll('../equipment', 'sheets'));
    const both = await willRename(client, [
      { oldUri: site.uri('equipment'), newUri: site.uri('north/equipment') },
      { oldUri: site.uri('wells'), newUri: site.uri('north/wells') },
    ]);
    expect(both).toBeNull();
  });

  it('of others changes nothing', async () => {
    const site = makeSite();
    const client = await startClient(site);
    await openFile(client, site, WELL);
    expect(await willRename(client, [{ oldUri: site.uri('x.yaml'), newUri: site.uri('y.yaml') }])).toBeNull();
  });
});
