import { present } from '../../values/conditions.ts';
import { isPresent } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const SETTINGS = 'setpoints.drive';

export const SETTINGS_WITHOUT_DRIVE: Check = check({
  id: 'drive.settings-without-drive',
  severity: 'warning',
  title: 'settings of a drive in a file that has none',
  compares: 'the settings of the drive with the equipment',
  why: 'Without a drive the unit counts as started on the line: taps, trips and start are judged by that.',
  mend: "Name the drive under 'equipment.drive', or take its settings out.",
  source: 'the document format',
  example: { lift: 'rotary', fails: { 'equipment.drive': null }, at: SETTINGS },
  when: [present(SETTINGS)],
  needs: { drive: isPresent('equipment.drive') },
  run: ({ drive }) =>
    drive
      ? undefined
      : {
          key: SETTINGS,
          message: `A drive is set up here, and 'equipment.drive' names none: the unit counts as started on the line, and everything is judged by that. ${SETTINGS_WITHOUT_DRIVE.mend}`,
        },
});
