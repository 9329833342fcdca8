// Brings what the tests need besides npm packages: a browser, and the reference programs that they compare with.
// Installs Debian packages where it may; elsewhere it says what is missing, and the tests that need it say so too.
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const NEEDED = [
  { program: process.env.CHROMIUM ?? '/usr/bin/chromium', packages: ['chromium'], why: 'tests in a real browser' },
  { program: '/usr/bin/pdfinfo', packages: ['poppler-utils'], why: 'looking at printed pages' },
  { program: '/usr/bin/qpdf', packages: ['qpdf'], why: 'checking the PDF form' },
  { program: '/usr/bin/units', packages: ['units'], why: 'the comparison with GNU units' },
  { program: '/usr/bin/python3', packages: ['python3-scipy'], module: 'scipy', why: 'the comparison with SciPy' },
];

const missing = NEEDED.filter((each) => !isThere(each));
if (missing.length > 0) installOrTell(missing);

function isThere({ program, module }) {
  if (!existsSync(program)) return false;
  return module === undefined || spawnSync(program, ['-c', `import ${module}`]).status === 0;
}

function installOrTell(missing) {
  const packages = missing.flatMap((each) => each.packages);
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    console.log(`Installing for the tests: ${packages.join(', ')}`);
    const options = {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    };
    execFileSync('apt-get', ['update', '-qq'], options);
    execFileSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...packages], options);
    return;
  }
  for (const { packages, why } of missing) console.log(`Not found, for ${why}: install ${packages.join(', ')}.`);
}
