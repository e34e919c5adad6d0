import { capital, countedInWords } from '../../../words/format-number.ts'

type Step = 'choose' | 'names' | 'links'

/** The answer of the page at each of its steps. In: how many soldiers, drafts or links there are. */
export const formatSeveral = (step: Step, count: number): string => {
  if (step === 'links') return `${capital(countedInWords(count, 'account'))} made; hand out the links now.`
  if (step === 'names') return `${capital(countedInWords(count, 'account'))} to make, with these names and roles.`
  return count === 0 ? 'Who gets an account?' : `${capital(countedInWords(count, 'soldier'))} chosen.`
}

export const WHY_SEVERAL: Readonly<Record<Step, string>> = {
  choose: 'Listed are those on the roster who have none; who is named as a sponsor or grader comes first.',
  names: 'Change what you like. All are made, or none where something is wrong.',
  links: 'Each link works once, for 72 hours, and is shown only now. Whoever opens it chooses the password.',
}
