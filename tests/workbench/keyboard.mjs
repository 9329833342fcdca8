// What a user does in VS Code without a mouse. A key that is pressed while the window is busy may reach nobody, so each
// action looks whether it has done its work, and is done again until it has.

/** How long anything is waited for, ms: only what fails takes so long, and a machine may be busy with others. */
export const PATIENCE = 60_000;
/** How long a single try is given before it is made again, ms. */
const TRY = 4000;

/** Runs a command by its title, as the palette offers it. */
export async function run(page, title) {
  await eventually(`'${title}' in the palette`, async () => {
    if (!(await isOpen(page))) await page.keyboard.press('F1');
    return (
      (await asks(page, `>${title}`)) &&
      shows(page.locator('.quick-input-list .monaco-list-row').first().filter({ hasText: title }))
    );
  });
  await page.keyboard.press('Enter');
  // What the command asks next comes into the same box.
  await eventually(`'${title}' to be taken`, async () => {
    return !(await isOpen(page)) || (await input(page).inputValue()) !== `>${title}`;
  });
}

/** Chooses in a list that a command has opened; types what is looked for. */
export async function choose(page, text) {
  const rows = page.locator('.quick-input-list .monaco-list-row');
  await rows.first().waitFor({ timeout: PATIENCE });
  await input(page).fill(text);
  await rows.first().filter({ hasText: text }).waitFor({ timeout: PATIENCE });
  await page.keyboard.press('Enter');
  await eventually(`'${text}' to be taken`, async () => !(await isOpen(page)));
}

/** Puts the cursor of the first editor somewhere; line and column count from one. */
export async function goTo(page, { line, column }) {
  await eventually(`line ${line}, column ${column}`, async () => {
    await page.keyboard.press('Control+1');
    await page.keyboard.press('Control+g');
    if (!(await asks(page, `:${line}:${column}`))) return false;
    await page.keyboard.press('Enter');
    return isAt(page, `Ln ${line}, Col ${column}`);
  });
}

/** Whether the status bar tells a place of the cursor, now or soon. */
export function isAt(page, words) {
  return shows(page.locator('.statusbar-item', { hasText: new RegExp(`${words}\\b`) }));
}

export async function useTheme(page, name) {
  await eventually('the list of themes', async () => {
    await page.keyboard.press('Control+k');
    await page.keyboard.press('Control+t');
    return shows(input(page));
  });
  await choose(page, name);
}

/** The frame of the panel whose main heading has a text. */
export async function panelWith(page, heading) {
  return eventually(`a panel with '${heading}'`, async () => {
    for (const frame of page.frames()) {
      const found = await frame
        .locator('h1', { hasText: heading })
        .count()
        .catch(() => 0);
      if (found > 0) return frame;
    }
    return undefined;
  });
}

export async function eventually(what, look) {
  const until = Date.now() + PATIENCE;
  for (;;) {
    const found = await look();
    if (found !== undefined && found !== false) return found;
    if (Date.now() > until) throw new Error(`waited in vain for ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

/** Whether something can be seen, now or within a try. */
export function shows(locator, timeout = TRY) {
  return locator.waitFor({ timeout }).then(
    () => true,
    () => false,
  );
}

/** Writes into the box at the top of the window; it may close while it is written into. */
export function asks(page, text) {
  return input(page)
    .fill(text, { timeout: TRY })
    .then(
      () => true,
      () => false,
    );
}

function input(page) {
  return page.locator('.quick-input-widget input.input');
}

function isOpen(page) {
  return page.locator('.quick-input-widget').isVisible();
}
