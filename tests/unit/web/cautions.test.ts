import fs from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { ALWAYS, cautionsOnce, WITH_ARMS } from '../../../web/domain/sheets/format-cautions.ts'
import { eachOnce } from '../../../web/parts/coaching/warning-list.tsx'
import { id } from './given.ts'

const catalogue = path.join(import.meta.dirname, '../../../server/standards/beginnings')
const standards = fs
  .readdirSync(catalogue)
  .filter((file) => file.endsWith('.json'))
  .map(
    (file) =>
      JSON.parse(fs.readFileSync(path.join(catalogue, file), 'utf8')) as { cautions?: string[]; arms: string[] },
  )
  .flatMap(({ cautions, arms }) => (cautions ? [{ cautions, arms }] : []))
const GENERAL = [WITH_ARMS, ...ALWAYS]

describe('cautions', () => {
  it('of several standards are said once, the general ones first, and what a standard adds is not lost', () => {
    expect(standards.length).toBeGreaterThan(2)
    const said = cautionsOnce(standards)
    expect(said.slice(0, GENERAL.length)).toEqual(GENERAL)
    expect(said.slice(GENERAL.length).sort()).toEqual([
      'Double time with a drawn blade only on level ground that is clear, and only as the unit allows it.',
      'Firearm: cleared and seen clear before the first call; no ammunition on the drill field.',
      'Muzzle in a safe direction, finger off the trigger; everyone stops on CEASE.',
    ])
  })

  it('that say the same to the word are one, and one that says more stands for the shorter', () => {
    const said = cautionsOnce([
      { cautions: ['Gloves on.', 'No one behind the rank.'], arms: ['rifle'] },
      { cautions: ['Gloves on, and the sling taut.', 'No one behind the rank.'], arms: [] },
    ])
    expect(said.slice(GENERAL.length)).toEqual(['No one behind the rank.', 'Gloves on, and the sling taut.'])
  })

  it('of a test without arms do not speak of weapons, and still of distance and of “cease”', () => {
    const said = cautionsOnce([{ cautions: ['The bell is struck by one alone.'], arms: [] }])
    expect(said.join(' ')).toMatch(/safety distance.*“cease”/)
    expect(said.join(' ')).not.toMatch(/weapon|arm\b|blade/)
    expect(said.at(-1)).toBe('The bell is struck by one alone.')
  })
})

describe('warnings', () => {
  const warning = {
    kind: 'sponsor-not-certified' as const,
    on: '2026-06-15',
    certification: 'sword',
    standard: 'standing',
    test: null,
    booked: false,
    sponsorId: id(2),
  }
  it('about a sponsor are one for all standards; about the candidate each stands for itself', () => {
    const both = eachOnce([warning, { ...warning, standard: 'marching' }])
    expect(both.map(({ standards: named }) => named)).toEqual([['standing', 'marching']])
    const own = { ...warning, kind: 'nothing-booked' as const, sponsorId: null }
    expect(eachOnce([own, { ...own, standard: 'marching' }])).toHaveLength(2)
  })
})
