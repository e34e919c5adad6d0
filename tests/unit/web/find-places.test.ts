import { describe, expect, it } from 'vitest'
import { matchRoute } from 'wouter'
import { PAGE_PERMISSIONS } from '../../../web/app/page-permissions.ts'
import { findPlaces } from '../../../web/domain/search/find-places.ts'
import { PLACES } from '../../../web/domain/search/places.ts'
import { takeDay } from '../../../web/domain/search/take-day.ts'
import { gradePaths, paths } from '../../../web/paths.ts'

const TODAY = '2026-11-30'
const titles = (text: string, ...roles: Parameters<typeof findPlaces>[1][number][]) =>
  findPlaces(text, roles, TODAY).map(({ title }) => title)

describe('pages and deeds', () => {
  it.each([
    ['move a due day', 'Move a due day'],
    ['suspend', 'Suspend a soldier, or lift it'],
    ['import roster', 'Import a file'],
    ['cancel test day', 'Call off a test day'],
    ['how do I merge duplicates', undefined],
    ['duplicate', 'Merge two entries of one soldier'],
    ['paper', 'Enter a sheet from paper'],
    ['glossary', 'Words'],
  ])('"%s" finds %s for the office', (text, title) => {
    expect(titles(text, 'office')[0]).toBe(title)
  })

  it('a day leads to the page as of that day', () => {
    expect(findPlaces('who may stand on 31 Dec', ['leader'], TODAY)).toEqual([
      { title: 'Who can stand, as of 31 Dec', to: '/stand?asOf=2026-12-31' },
    ])
    expect(findPlaces('ready 2027-02-01', ['leader'], TODAY)).toContainEqual({
      title: 'Will we be ready on a day, as of 1 Feb 2027',
      to: '/stand/ahead?on=2027-02-01',
    })
  })

  it('are only those one is let in to, by what the pages themselves ask', () => {
    expect(titles('suspend', 'leader')).toEqual([])
    expect(titles('backup', 'office')).toEqual([])
    expect(titles('backup', 'administrator')).toEqual(['Backup'])
    const parser = (path: string) => ({
      pattern: new RegExp(`^${path.replace(/\*\??$/, '.*').replace(/:\w+/g, '[^/]+')}$`),
      keys: [],
    })
    for (const { to, permission } of PLACES) {
      const page = PAGE_PERMISSIONS.find(({ path }) => matchRoute(parser as never, path, to)[0])
      if (page) expect(permission, to).toBeDefined()
    }
  })

  it('all have an address of the client', () => {
    const known: string[] = [...Object.values(paths), ...Object.values(gradePaths)]
    for (const { to } of PLACES) expect(known).toContain(to)
  })

  it('say nothing to nothing, or to words that say nothing', () => {
    for (const text of ['', '  ', 'how do I', '31 Dec', '…']) expect(titles(text, 'office')).toEqual([])
  })
})

describe('a day in a text', () => {
  it.each([
    ['stand 31 Dec', '2026-12-31', 'stand'],
    ['stand December 31', '2026-12-31', 'stand'],
    ['31 december 2027 stand', '2027-12-31', 'stand'],
    ['2 Mar', '2027-03-02', ''],
    ['30 nov', '2026-11-30', ''],
    ['2026-12-05', '2026-12-05', ''],
  ])('"%s" is %s', (text, iso, rest) => {
    const found = takeDay(text, TODAY)
    expect(found.day?.iso).toBe(iso)
    expect(found.rest.trim()).toBe(rest)
  })

  it.each(['31 Feb', '99 marching', '12 marching', 'decorate 4', 'A Company 2', '2026-13-01', 'stand 4 posts'])(
    '"%s" has none',
    (text) => {
      expect(takeDay(text, TODAY)).toEqual({ day: null, rest: text })
    },
  )
})
