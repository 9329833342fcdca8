import { entry, knownCases, method, text, type ValueDeclaration, valueBy } from '../declare.ts';

const DEFINED = 'the document format';

/** The voltage that a protection watches at its side, when all is well: the healthy end of the cases for what varies. */
function healthy(protection: string, of: (...numbers: number[]) => number, end: string): ValueDeclaration {
  const side = `setpoints.protection.${protection}.side`;
  const overCases = (where: string, title: string, id: string) =>
    method({
      when: [{ path: side, is: [where] }],
      formula: `${end} over cases of ${title}`,
      source: DEFINED,
      inputs: { voltages: knownCases(id) },
      compute: ({ voltages }) => of(...voltages.filter(Number.isFinite)),
    });
  return valueBy(`${protection}.healthy_voltage`, 'voltage at the side of the protection when all is well', 'voltage', [
    method({
      when: [{ path: side, isNot: ['drive', 'motor'] }],
      formula: 'V_supply',
      source: DEFINED,
      inputs: { supply: entry('supply.voltage'), side: text(side, 'supply') },
      compute: ({ supply }) => supply,
    }),
    overCases('drive', 'the voltage that the drive must give', 'drive.output_voltage'),
    overCases('motor', 'the voltage that the motor needs', 'motor.voltage'),
  ]);
}

export const HEALTHY_VOLTAGES: readonly ValueDeclaration[] = [
  healthy('overvoltage', Math.max, 'max'),
  healthy('undervoltage', Math.min, 'min'),
];
