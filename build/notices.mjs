// Writes THIRD-PARTY-NOTICES.md, the licences of all that is bundled into dist/: `node build/notices.mjs`, after a build.
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const ROOT = join(import.meta.dirname, '..');
const NOTICES = join(ROOT, 'THIRD-PARTY-NOTICES.md');

/**
 * Licences that let us pass a package on with its notice. BlueOak-1.0.0 is as permissive as MIT, but younger and less
 * known: the owner may want to look at it. The DejaVu fonts, of which the forms hold a part, have terms of their own
 * (Bitstream Vera and Arev): they may be embedded, and sold as part of something larger.
 */
const ALLOWED = new Set([
  ...['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', '0BSD', 'Apache-2.0', 'BlueOak-1.0.0', 'OFL-1.1'],
  'Bitstream Vera and Arev terms',
]);

/** What is not bundled as a module: its data stand in generated code. */
const EMBEDDED = [{ name: 'dejavu-fonts-ttf', licence: 'Bitstream Vera and Arev terms' }];

const TEXT_FILE = /^(?:licen[cs]e|copying|notice)(?:[.-].*)?$/i;

/** Folders of packages by what esbuild read, such as `node_modules/a/node_modules/@b/c`. */
function foldersOf(inputs) {
  const folders = inputs.flatMap((path) => /^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)?.[0] ?? []);
  return [...new Set(folders)];
}

function read(folder, licence) {
  const about = JSON.parse(readFileSync(join(ROOT, folder, 'package.json'), 'utf8'));
  const files = readdirSync(join(ROOT, folder)).filter((name) => TEXT_FILE.test(name));
  const texts = files.sort().map((name) =>
    readFileSync(join(ROOT, folder, name), 'utf8')
      .replaceAll('\r\n', '\n')
      .trim(),
  );
  return { name: about.name, version: about.version, licence: licence ?? about.license, texts };
}

function refuse({ name, licence, texts }) {
  if (!ALLOWED.has(licence)) throw new Error(`${name} has the licence '${licence}', which is not among those allowed`);
  if (texts.length === 0) throw new Error(`${name} has no licence text beside it`);
}

function section({ name, version, licence, texts }) {
  const indented = texts.map((text) => text.replaceAll(/^(?=.)/gm, '    '));
  return `## ${name} ${version}\n\nLicence: ${licence}\n\n${indented.join('\n\n')}\n`;
}

/** The notices of what the last build bundled. @throws Error at a licence that is not allowed, or has no text */
function notices() {
  const inputs = JSON.parse(readFileSync(join(ROOT, 'dist/inputs.json'), 'utf8'));
  const packages = [
    ...foldersOf(inputs).map((folder) => read(folder)),
    ...EMBEDDED.map(({ name, licence }) => read(`node_modules/${name}`, licence)),
  ];
  packages.forEach(refuse);
  const sections = new Map(packages.map((each) => [`${each.name} ${each.version}`, section(each)]));
  const head =
    '# Third-party notices\n\nSetproof holds these packages, or parts of them. Written by `npm run notices`.\n';
  return [head, ...[...sections].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, text]) => text)].join('\n');
}

const text = notices();
if (process.argv[2] !== '--check') writeFileSync(NOTICES, text);
else if (!existsSync(NOTICES) || readFileSync(NOTICES, 'utf8') !== text) {
  console.error('THIRD-PARTY-NOTICES.md is not what is bundled: run `npm run notices`.');
  process.exitCode = 1;
}
