import type { Account } from '#contract/accounts/accounts.ts'
import { capital, counted, countedInWords, inWords } from '../../words/format-number.ts'

type Counted = Pick<Account, 'state'>

const howMany = (accounts: readonly Counted[], state: Account['state']): number =>
  accounts.filter((account) => account.state === state).length

/** The answer on the page of accounts. `more` when there are further pages; `filtered` when not all were asked for. */
export const formatAccounts = (accounts: readonly Counted[], more: boolean, filtered: boolean): string => {
  if (accounts.length === 0) return filtered ? 'No account fits.' : 'There is no account.'
  if (more) return `The first ${counted(accounts.length, 'account')}, by name.`
  const waiting = howMany(accounts, 'invited')
  const all = capital(countedInWords(accounts.length, 'account'))
  if (waiting === 0)
    return filtered ? `${all} ${accounts.length === 1 ? 'fits' : 'fit'}.` : `${all}, and no invitation is open.`
  if (waiting === accounts.length) return `${all}; ${waiting === 1 ? 'it has' : 'all have'} yet to choose a password.`
  return `${all}; ${inWords(waiting)} ${waiting === 1 ? 'has' : 'have'} yet to choose a password.`
}
