import type { Entry } from '../engine/checklist/entry.ts';
import { isSigned } from '../engine/checklist/entry.ts';
import { judgeStep } from '../engine/checklist/judge.ts';
import { kindOfUnit, readNumber, withUnit } from '../engine/checklist/reading-number.ts';
import type { Step } from '../engine/checklist/step.ts';

type Control = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

/** The part of the page that belongs to one step: shows an entry, and reads what is typed as one. */
export class StepView {
  readonly step: Step;
  readonly root: HTMLFieldSetElement;
  readonly controls: readonly Control[];
  readonly unit: HTMLSelectElement | null;

  constructor(step: Step, root: HTMLFieldSetElement) {
    this.step = step;
    this.root = root;
    this.controls = [...root.querySelectorAll<Control>('[data-part]')];
    this.unit = root.querySelector<HTMLSelectElement>('[data-unit]');
    this.#offerUnits();
  }

  button(name: 'sign' | 'withdraw' | 'planned'): HTMLButtonElement | null {
    return this.root.querySelector<HTMLButtonElement>(`[data-${name}]`);
  }

  show(entry: Entry): void {
    for (const control of this.controls) {
      const part = control.dataset.part;
      if (part === 'done') (control as HTMLInputElement).checked = entry.done === true;
      else if (part === 'value') control.value = this.#shownValue(control, entry.values?.[indexOf(control)] ?? '');
      else control.value = entry[part as 'by' | 'at' | 'note' | 'instrument'] ?? '';
    }
    if (this.step.kind === 'hold') this.#showSignature(entry);
  }

  /** What stands in the controls now. */
  read(): Entry {
    const entry: { -readonly [Key in keyof Entry]: Entry[Key] } = {};
    const values: string[] = [];
    for (const control of this.controls) {
      const part = control.dataset.part;
      if (part === 'done') entry.done = (control as HTMLInputElement).checked;
      else if (part === 'value') values[indexOf(control)] = withUnit(control.value, this.unit?.value);
      else if (control.value.trim() !== '') entry[part as 'by' | 'at' | 'note' | 'instrument'] = control.value;
    }
    if (values.some((text) => text.trim() !== '')) entry.values = values;
    return entry;
  }

  /** Says how the entry compares with what the step allows. @returns whether it needs attention */
  judge(entry: Entry, temperature: number | undefined): boolean {
    const { verdict, messages } = judgeStep(this.step, entry.values ?? [], temperature);
    const place = this.root.querySelector<HTMLElement>('[data-said]');
    const words = verdict === 'inside' ? ['Within what is allowed.', ...messages] : messages;
    if (place !== null && this.step.kind !== 'hold') {
      // A live region that is written anew is read anew.
      if (place.textContent !== words.join(' ')) place.textContent = words.join(' ');
      place.dataset.verdict = verdict;
    }
    const isWrong = verdict === 'outside' || verdict === 'unreadable';
    for (const control of this.controls) {
      if (control.dataset.part === 'value') control.setAttribute('aria-invalid', String(isWrong));
    }
    return isWrong;
  }

  /** Shuts the step behind a hold point that nobody signed, or opens it. */
  shut(hold: Step | undefined): void {
    this.root.disabled = hold !== undefined;
    const words = hold === undefined ? '' : `Shut until this is signed: ${hold.text}`;
    const place = this.root.querySelector<HTMLElement>('[data-shut]');
    if (place !== null && place.textContent !== words) place.textContent = words;
  }

  #showSignature(entry: Entry): void {
    const signed = isSigned(entry);
    for (const control of this.controls) (control as HTMLInputElement).readOnly = signed;
    this.button('sign')?.toggleAttribute('hidden', signed);
    this.button('withdraw')?.toggleAttribute('hidden', !signed);
    const place = this.root.querySelector<HTMLElement>('[data-said]');
    if (place !== null) place.textContent = signed ? `Signed by ${entry.by} at ${entry.at}.` : '';
  }

  /** A choice may have been kept in the words of the checklist; everything else is shown as it is. */
  #shownValue(control: Control, text: string): string {
    return control instanceof HTMLSelectElement ? text.toLowerCase().replace(/[\s_]+/g, '_') : text;
  }

  /** The usual units in which a reading of this step can be typed; others are typed behind the number. */
  #offerUnits(): void {
    const own = this.step.unit ?? '';
    const kind = kindOfUnit(own);
    if (this.unit === null || kind === undefined) return;
    const mark = /\([ga]\)$/.exec(own)?.[0] ?? '';
    const usual = kind.usual.map((unit) => `${unit}${mark}`);
    const offered = [...usual, ...(kind.name === 'resistance' ? ['Gohm'] : [])];
    for (const unit of offered) {
      if (unit !== own && readNumber(`1 ${unit}`, own).fault === undefined) this.unit.add(new Option(unit));
    }
  }
}

function indexOf(control: Control): number {
  return Number(control.dataset.index ?? 0);
}
