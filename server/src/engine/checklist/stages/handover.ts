import { listed } from '../../text/words.ts';
import type { Facts } from '../facts.ts';
import type { Overview } from '../overview.ts';
import { act, hold, only, read, type Step, under } from '../step.ts';

/** Stage 7: what was left, what is open, who takes over, what goes back to the repository. */
export function handover(facts: Facts, overview: Overview): readonly Step[] {
  return [
    ...under('As left', asLeft(facts)),
    ...under('Deviations', deviations(overview)),
    ...under('Remarks', [
      read('handover.remarks', 'Write down whatever the next reader should know.', {
        fields: ['remarks'],
        prose: true,
      }),
      read('handover.spares', 'Write down what was used up and must be replaced.', {
        fields: ['used up'],
        prose: true,
      }),
    ]),
    ...under('Leaving', leaving(facts)),
    ...under('Sending back', sendingBack()),
    ...under('Signatures', [
      hold(
        'handover.hold',
        'Hand over to the operator: settings, readings and open points were gone through together.',
      ),
    ]),
  ];
}

function asLeft(facts: Facts): readonly Step[] {
  return [
    read(
      'handover.differences',
      'List each setting that was left different from the plan, with the reason and who agreed.',
      { fields: ['setting', 'as left', 'reason'], prose: true },
    ),
    act('handover.file', 'Bring each difference into the file, so that it is checked like any other setting.'),
    ...only(
      facts.hasTransformer,
      act('handover.tap', 'Confirm the tap as left on the transformer, and that its cover is closed.'),
    ),
    act('handover.saved', 'Save the controller’s settings as left, and its log of the start.'),
  ];
}

function deviations({ deviations: accepted, counts }: Overview): readonly Step[] {
  const open = counts.errors + counts.warnings;
  return [
    ...accepted.map((each, index) =>
      act(
        `handover.deviation_${index + 1}`,
        `Confirm that the deviation from ${each.check} was kept: ${each.reason}.`,
        {
          note: `Until ${each.until}, approved by ${each.approvedBy}.`,
          case: each.case,
        },
      ),
    ),
    ...only(
      accepted.length === 0,
      act(
        'handover.no_deviations',
        'Confirm that nothing was accepted beyond its limit on site; the file has no deviations.',
      ),
    ),
    ...only(
      open > 0,
      act('handover.open_findings', `Say who settles the open findings, and by when: ${open} at the time of printing.`),
    ),
  ];
}

function leaving(facts: Facts): readonly Step[] {
  return [
    act('handover.locks', 'Remove all personal locks and tags, each by its owner; return the permits.'),
    act('handover.covers', `Close and lock ${listed(facts.surfaceEquipment)}; leave the wiring diagram inside.`),
    act('handover.barriers', 'Confirm with the operator which barriers the well now has.'),
    ...only(
      facts.restartsItself,
      act('handover.automatic', 'Tell the operator that the unit restarts by itself, after which trips and how often.'),
    ),
    ...only(
      facts.hasMagnets,
      act(
        'handover.magnets',
        'Tell the operator that the cable can be live while fluid falls back, also with the drive off.',
      ),
    ),
    ...only(facts.hasSour, act('handover.sour', 'Hand the gas readings of the visit to the site.')),
    act('handover.site', 'Leave the site clean; waste oil, fluid and cable ends are taken along.'),
  ];
}

function sendingBack(): readonly Step[] {
  return [
    act('handover.readings', 'Send back the readings of this sheet with its fingerprint, on the day of the visit.'),
    act('handover.photographs', 'Send back photographs of nameplates, tap, wiring and seals.'),
    act('handover.first_day', 'Send back the readings of the first day when they are complete.'),
  ];
}
