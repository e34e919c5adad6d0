import { describe, expect, it } from 'vitest'
import { ApiError, NoAnswerError } from '../../../web/api/errors.ts'
import { listRoles } from '../../../web/domain/accounts/roles.ts'
import { formatAccounts } from '../../../web/features/accounts/format-accounts.ts'
import { formatState } from '../../../web/features/accounts/format-state.ts'
import { formatPasswordChanged, formatSessions } from '../../../web/features/accounts/own/format-account.ts'
import { formatLinkProblem } from '../../../web/features/accounts/sign-in/format-link-problem.ts'

const active = { state: 'active' } as const
const invited = { state: 'invited' } as const

describe('the page of accounts', () => {
  it('says how many there are, and who has yet to choose a password', () => {
    expect(formatAccounts([active, active], false, false)).toBe('Two accounts, and no invitation is open.')
    expect(formatAccounts([active, invited], false, false)).toBe('Two accounts; one has yet to choose a password.')
    expect(formatAccounts([active, invited, invited], false, false)).toBe(
      'Three accounts; two have yet to choose a password.',
    )
    expect(formatAccounts([invited, invited], false, true)).toBe('Two accounts; all have yet to choose a password.')
    expect(formatAccounts([invited], false, true)).toBe('One account; it has yet to choose a password.')
  })

  it('claims nothing of accounts it has not seen', () => {
    expect(formatAccounts(Array(100).fill(active), true, false)).toBe('The first 100 accounts, by name.')
    expect(formatAccounts([], false, true)).toBe('No account fits.')
    expect(formatAccounts([active], false, true)).toBe('One account fits.')
  })

  it('says how an account stands', () => {
    const today = '2026-11-25'
    expect(formatState({ state: 'active', linkExpiresAt: null }, today)).toBe('signs in')
    expect(formatState({ state: 'active', linkExpiresAt: null, linkedWith: ['Guard directory'] }, today)).toBe(
      'signs in, also by Guard directory',
    )
    expect(formatState({ state: 'disabled', linkExpiresAt: null }, today)).toBe('disabled')
    expect(formatState({ state: 'invited', linkExpiresAt: null }, today)).toBe('invited, link expired')
    expect(formatState({ state: 'invited', linkExpiresAt: '2026-11-28T12:00:00Z' }, today)).toMatch(
      /^invited, link until Sat 28 Nov, \d\d:\d\d$/,
    )
  })

  it('lists roles from the widest to the narrowest', () => {
    expect(listRoles(['soldier', 'office'])).toBe('Training office, soldier')
    expect(listRoles([])).toBe('')
  })
})

describe('one’s own account', () => {
  it('says where one is signed in', () => {
    expect(formatSessions(1)).toBe('You are signed in here and nowhere else.')
    expect(formatSessions(2)).toBe('You are signed in here and in one other place.')
    expect(formatSessions(4)).toBe('You are signed in here and in three other places.')
  })

  it('says what a change of password ended', () => {
    expect(formatPasswordChanged(0)).toBe('The password is changed. No other session was open.')
    expect(formatPasswordChanged(1)).toBe('The password is changed. One other session was ended.')
    expect(formatPasswordChanged(2)).toBe('The password is changed. Two other sessions were ended.')
  })
})

describe('a one-time link', () => {
  it('is whole and looked at, or says what to do', () => {
    const problem = (status: number) => new ApiError({ type: 'x', title: 'x', status, detail: 'Ask an administrator.' })
    expect(formatLinkProblem('token', null)).toBeNull()
    expect(formatLinkProblem('', null)).toMatchObject({ answer: 'This link is incomplete.', mayHelp: false })
    expect(formatLinkProblem('token', problem(404))).toEqual({
      answer: 'This link no longer works.',
      why: 'Ask an administrator.',
      mayHelp: false,
    })
    expect(formatLinkProblem('token', new NoAnswerError(null))).toMatchObject({ mayHelp: true })
    expect(formatLinkProblem('token', problem(429))).toMatchObject({ mayHelp: true })
  })
})
