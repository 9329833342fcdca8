import { type Check, capitalise } from '../../engine/index.ts';

/** A check of the catalogue as a rule: what it compares, and as help why it matters and how to mend it. */
export function ruleOf(check: Check) {
  const { id, severity, title, compares, why, mend, source, concerns } = check;
  return {
    id,
    shortDescription: { text: sentence(title) },
    fullDescription: { text: `It compares ${compares}.` },
    help: {
      text: `${why}\n\nTo mend it: ${mend}\n\nSource: ${source}.`,
      markdown: `${why}\n\n**To mend it.** ${mend}\n\n*Source: ${source}.*`,
    },
    defaultConfiguration: { level: severity },
    properties: { tags: [id.split('.')[0]], concerns },
  };
}

function sentence(text: string): string {
  return `${capitalise(text)}.`;
}
