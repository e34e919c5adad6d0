import { describe, expect, it } from 'vitest'
import { ApiError, NoAnswerError } from '../../../web/api/errors.ts'
import { listRoles } from '../../../web/domain/accounts/roles.ts'
import { sayPasswordChanged, saySessions } from '../../../web/features/accounts/own/say-account.ts'
import { sayAccounts } from '../../../web/features/accounts/say-accounts.ts'
import { sayState } from '../../../web/features/accounts/say-state.ts'
import { sayLinkProblem } from '../../../web/features/accounts/sign-in/say-link-problem.ts'

const active = { state: 'active' } as const
const invited = { state: 'invited' } as const

describe('the page of accounts', () => {
  it('says how many there are, and who has yet to choose a password', () => {
    expect(sayAccounts([active, active], false, false)).toBe('Two accounts, and no invitation is open.')
    expect(sayAccounts([active, invited], false, false)).toBe('Two accounts; one has yet to choose a password.')
    expect(sayAccounts([active, invited, invited], false, false)).toBe(
      'Three accounts; two have yet to choose a password.',
    )
    expect(sayAccounts([invited, invited], false, true)).toBe('Two accounts; all have yet to choose a password.')
    expect(sayAccounts([invited], false, true)).toBe('One account; it has yet to choose a password.')
  })

  it('claims nothing of accounts it has not seen', () => {
    expect(sayAccounts(Array(100).fill(active), true, false)).toBe('The first 100 accounts, by name.')
    expect(sayAccounts([], false, true)).toBe('No account fits.')
    expect(sayAccounts([active], false, true)).toBe('One account fits.')
  })

  it('says how an account stands', () => {
    const today = '2026-11-25'
    expect(sayState({ state: 'active', linkExpiresAt: null }, today)).toBe('signs in')
    expect(sayState({ state: 'disabled', linkExpiresAt: null }, today)).toBe('disabled')
    expect(sayState({ state: 'invited', linkExpiresAt: null }, today)).toBe('invited, link ran out')
    expect(sayState({ state: 'invited', linkExpiresAt: '2026-11-28T12:00:00Z' }, today)).toMatch(
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
    expect(saySessions(1)).toBe('You are signed in here and nowhere else.')
    expect(saySessions(2)).toBe('You are signed in here and in one other place.')
    expect(saySessions(4)).toBe('You are signed in here and in three other places.')
  })

  it('says what a change of password ended', () => {
    expect(sayPasswordChanged(0)).toBe('The password is changed. No other session was open.')
    expect(sayPasswordChanged(1)).toBe('The password is changed. One other session was ended.')
    expect(sayPasswordChanged(2)).toBe('The password is changed. Two other sessions were ended.')
  })
})

describe('a one-time link', () => {
  it('is whole and looked at, or says what to do', () => {
    const problem = (status: number) => new ApiError({ type: 'x', title: 'x', status, detail: 'Ask an administrator.' })
    expect(sayLinkProblem('token', null)).toBeNull()
    expect(sayLinkProblem('', null)).toMatchObject({ answer: 'This link is incomplete.', mayHelp: false })
    expect(sayLinkProblem('token', problem(404))).toEqual({
      answer: 'This link no longer works.',
      why: 'Ask an administrator.',
      mayHelp: false,
    })
    expect(sayLinkProblem('token', new NoAnswerError(null))).toMatchObject({ mayHelp: true })
    expect(sayLinkProblem('token', problem(429))).toMatchObject({ mayHelp: true })
  })
})
