import { expect, test } from 'vitest'
import {
  formatChance,
  formatFair,
  formatProposal,
  formatStood,
  formatTitles,
  joinShort,
} from '../../../web/domain/ceremonies/format-proposal.ts'
import { formatInTen, formatPast } from '../../../web/domain/readiness/format-ahead.ts'

test.each([
  [['Sentry 1', 'Sentry 2', 'Sentry 3', 'Sentry 4'], 'Sentry 1 to 4'],
  [['Sentry 1', 'Sentry 2', 'Escort'], 'Sentry 1 and 2 and Escort'],
  [['Sentry 1', 'Sentry 3', 'Sentry 4'], 'Sentry 1, 3 and 4'],
  [['Escort'], 'Escort'],
])('the posts %j are called %s', (titles, said) => {
  expect(formatTitles(titles)).toBe(said)
})

test('how often somebody stood, and how the load lies, of nobody in particular', () => {
  expect([0, 1, 2, 3].map((stood) => formatStood({ stood }))).toEqual([
    'has not stood in 90 days',
    'stood once in 90 days',
    'stood twice in 90 days',
    'stood three times in 90 days',
  ])
  expect(formatFair({ least: 0, most: 1, others: { least: 1, most: 4 } })).toBe(
    'Those proposed stood at no to one ceremony in the 90 days before, the others who could at one to four.',
  )
  expect(formatFair(null)).toBe('')
})

test('what can be done about open posts', () => {
  const posts = (many: number) => new Array(many).fill(null) as never[]
  expect(formatProposal({ open: 0, posts: [] })).toBe('')
  expect(formatProposal({ open: 4, posts: posts(4) })).toBe('Somebody can stand at all four short posts.')
  expect(formatProposal({ open: 4, posts: posts(3) })).toBe('Somebody can stand at three of the four short posts.')
  expect(formatProposal({ open: 1, posts: posts(1) })).toBe('Somebody can stand at the short post.')
  expect(formatProposal({ open: 2, posts: [] })).toBe('None of yours can stand at any short post.')
})

test('sets of posts that want the same soldiers are said together', () => {
  const soldiers = [{ soldierId: 'a', rosterNumber: '1', name: 'A', grade: 'PFC', unitId: 'u' }]
  const short = (posts: string[]) => ({ posts, soldiers, wouldHelp: [] })
  expect(joinShort([short(['1', '2']), short(['1', '3'])]).map(({ posts }) => posts)).toEqual([['1', '2', '3']])
})

test('chances in words never claim certainty', () => {
  expect([0, 0.01, 0.5, 0.94, 0.96, 1].map(formatInTen)).toEqual([
    'no chance',
    'hardly a chance',
    '5 in 10',
    '9 in 10',
    'all but certain',
    'certain',
  ])
  expect([0.02, 0.71, 0.99].map(formatChance)).toEqual([
    'hardly any such soldier passes',
    'about 7 of 10 such soldiers pass',
    'nearly all such soldiers pass',
  ])
})

test('how often the interval held, and on which side it did not', () => {
  const month = (came: number) => ({
    asOf: '2026-05-31',
    on: '2026-06-30',
    required: 9,
    expected: 5,
    low: 4,
    high: 6,
    came,
    held: came >= 4 && came <= 6,
  })
  const items = [3, 4, 5, 6, 7, 8].map(month)
  expect(formatPast({ unitId: null, certification: 'sword', items, held: 3 })).toBe(
    'The interval held three of six times (eight of ten is what it promises); two times more were certified, one time fewer.',
  )
})
