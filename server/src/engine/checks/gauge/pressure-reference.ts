import { fromAbsolute } from '../../quantity/convert.ts';
import { formatMeasure } from '../../quantity/format.ts';
import { KINDS } from '../../quantity/kinds.ts';
import type { Reference } from '../../quantity/types.ts';
import { present } from '../../values/conditions.ts';
import { entry, text, value } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Offer } from '../declare.ts';
import { IN_USE, TRIP } from '../intake-trip/keys.ts';

const REFERENCE = 'equipment.gauge.pressure_reference';

/** The offer of the same pressure as the gauge reads it. */
function inGaugesReference(context: CheckContext, trip: number, reference: Reference): Offer {
  const unit = context.quantity(TRIP)?.unit ?? '';
  const shown = fromAbsolute(trip, reference, context.evaluation.installation.atmosphere);
  const newText = formatMeasure(shown, KINDS.pressure, unit, reference);
  return { title: `Write ${newText}: the same pressure, as the gauge reads it`, kind: 'offer', key: TRIP, newText };
}

export const GAUGE_PRESSURE_REFERENCE: Check = check({
  id: 'gauge.pressure-reference',
  severity: 'note',
  title: 'trip and gauge go by different zeros of pressure',
  compares: 'the reference of the intake-pressure trip, stated or by the file’s conventions, with that of the gauge',
  why: 'Whoever types the number as it stands into the controller sets the trip one atmosphere off.',
  mend: 'Write the trip with the reference of the gauge, or convert it when it is entered in the controller.',
  source: 'definition of gauge pressure',
  example: { lift: 'linear', fails: { [REFERENCE]: 'absolute' }, at: TRIP },
  when: [...IN_USE, present(REFERENCE)],
  needs: { trip: entry(TRIP), reads: text(REFERENCE), atmosphere: value('site.atmosphere') },
  run: ({ trip, reads, atmosphere }, context) => {
    const written = context.quantity(TRIP);
    if (written === undefined) return { lacks: [TRIP] };
    const means = written.reference ?? context.evaluation.installation.bareMeans;
    if (means === reads) return undefined;
    return {
      key: TRIP,
      message: `The trip '${context.text(TRIP)}' is ${means} pressure, and the gauge reads ${reads} pressure: ${context.show(atmosphere, 'pressure_difference')} lie between them. Write it with the gauge’s reference, or convert it when it is entered in the controller.`,
      related: [
        { key: REFERENCE, message: 'how the gauge reads' },
        { key: 'conventions.pressure', message: 'how bare pressures are meant' },
      ],
      fixes: [inGaugesReference(context, trip, reads === 'absolute' ? 'absolute' : 'gauge')],
    };
  },
});
