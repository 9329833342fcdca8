/** What keeps a command from doing what it was asked, in a sentence for the person who asked. */
export class Refusal extends Error {}
