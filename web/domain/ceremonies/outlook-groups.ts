import type { OutlookItem } from '#contract/ceremonies/outlooks.ts'

export type Group = OutlookItem['group']

/** The groups of an outlook in order, and what a list calls each. */
export const GROUP_WORDS: readonly { group: Group; title: string }[] = [
  { group: 'named', title: 'Named and can stand' },
  { group: 'can stand', title: 'Can stand, not named' },
  { group: 'lapses before', title: 'Lapse before it' },
  { group: 'could make it', title: 'Could make it, if they pass' },
  { group: 'cannot', title: 'Cannot' },
]

/** The people of an outlook by group, in order of the groups; those without anybody left out. */
export const inGroups = <Item extends Pick<OutlookItem, 'group'>>(items: readonly Item[]) =>
  GROUP_WORDS.map(({ group, title }) => ({ group, title, items: items.filter((item) => item.group === group) })).filter(
    (one) => one.items.length > 0,
  )

/** The tests that would certify these people if passed. */
export const testsOnTheWay = (items: readonly Pick<OutlookItem, 'soldierId' | 'way'>[]) =>
  items.flatMap(({ soldierId, way }) => (way ?? []).map(({ standard }) => ({ soldierId, standard })))
