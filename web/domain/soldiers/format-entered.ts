import type { EnteredFact } from '#contract/soldiers/as-known.ts'

/** How codes and days are said. */
export interface Sayings {
  readonly certification: (code: string) => string
  readonly standard: (code: string) => string
  readonly day: (day: string) => string
}

const STATES = { counted: 'counted', held: 'held', rejected: 'rejected' } as const

/** What somebody entered, in a sentence. In: how codes and days are said, and what sheet an id is of ("of 2 Mar, Rifle"). */
export function formatEntered(fact: EnteredFact, say: Sayings, whichSheet: (id: string) => string): string {
  switch (fact.kind) {
    case 'sheet': {
      const { revision, outcome, state, standard, day } = fact
      const what = `The sheet of ${say.day(day)}, ${say.standard(standard)},`
      return revision === 1
        ? `${what} arrived: ${outcome}, ${STATES[state]}.`
        : `${what} was amended: ${outcome}, ${STATES[state]}.`
    }
    case 'decision':
      return `The sheet ${whichSheet(fact.sheetId)} was ${fact.state === 'rejected' ? 'rejected' : 'counted'}.`
    case 'award':
      return `An award of ${say.certification(fact.certification)} from ${say.day(fact.awardedOn)} through ${say.day(fact.validThrough)} was carried over.`
    case 'withdrawal':
      return `A withdrawal from ${say.certification(fact.certification)} on ${say.day(fact.on)} was entered.`
    case 'suspension':
      return `A suspension of ${say.certification(fact.certification)} from ${say.day(fact.from)} was entered.`
    case 'lift':
      return `The suspension of ${say.certification(fact.certification)} from ${say.day(fact.from)} was lifted as of ${say.day(fact.on)}.`
    case 'review':
      return `A review for ${say.standard(fact.standard)} on ${say.day(fact.on)} was entered.`
    case 'due-move':
      return `The retest after the NO-GO of ${say.day(fact.on)}, ${say.standard(fact.standard)}, was given the due day ${say.day(fact.due)}.`
    case 'approval':
      return `${say.certification(fact.certification)} was signed as of ${say.day(fact.on)}.`
    case 'refusal':
      return `${say.certification(fact.certification)} was refused as of ${say.day(fact.on)}.`
    case 'extension':
      return `${say.certification(fact.certification)} was extended by ${fact.days} ${fact.days === 1 ? 'day' : 'days'}.`
    case 'word-taken-back':
      return 'What a commander had decided about a certification was taken back.'
    case 'merge':
      return 'A second entry of this soldier on the roster was merged into this one.'
    case 'unmerge':
      return 'A merge with another entry on the roster was undone.'
    case 'terms':
      return `Terms of ${say.certification(fact.certification)} that hold from ${say.day(fact.effectiveFrom)} were entered.`
    case 'break':
      return `Version ${fact.version} of ${say.standard(fact.standard)} was published: from ${say.day(fact.effectiveFrom)} on, a GO under an earlier version is no longer kept.`
  }
}
