import { type Errand, may } from '../api/may.ts'
import type { Role } from '../domain/accounts/roles.ts'
import { paths } from '../paths.ts'

export interface MenuItem {
  to: string
  text: string
  /** The addresses under which the item is the one one is at. */
  within: RegExp
  /** What one must be let do; without it the page is for everybody who sees soldiers. */
  errand?: Errand
  /** The roles that find it in the row at the top; everybody finds it under "All pages". */
  row?: readonly Role[]
}

export interface MenuGroup {
  title: string
  items: readonly MenuItem[]
}

/** Every page one goes to by the menu, by what it is about. A new page gets its line here. */
const GROUPS: readonly MenuGroup[] = [
  {
    title: 'The unit',
    items: [
      {
        to: paths.stand,
        text: 'Who can stand',
        within: /^\/stand(\/|$)/,
        errand: 'see grades',
        row: ['leader', 'commander'],
      },
      {
        to: paths.ceremonies,
        text: 'Ceremonies',
        within: /^\/ceremonies/,
        errand: 'see grades',
        row: ['leader', 'commander'],
      },
      {
        to: paths.candidates,
        text: 'Candidates',
        within: /^\/(candidates|sheets)/,
        errand: 'see grades',
        row: ['leader', 'sponsor', 'grader'],
      },
      { to: paths.people, text: 'People', within: /^\/people/, errand: 'see people' },
      { to: paths.firstSteps, text: 'First steps', within: /^\/first-steps/, errand: 'manage people' },
      { to: paths.units, text: 'Units', within: /^\/units/, errand: 'manage people' },
      {
        to: paths.armsAndGrades,
        text: 'Arms and grades',
        within: /^\/arms-and-grades/,
        errand: 'manage people',
      },
      { to: paths.certificates, text: 'Certificates', within: /^\/certificates/, errand: 'manage people' },
      { to: paths.suspensions, text: 'Suspensions', within: /^\/suspensions/, errand: 'suspend', row: ['commander'] },
    ],
  },
  {
    title: 'Tests',
    items: [
      { to: paths.testDays, text: 'Test days', within: /^\/test-days/, errand: 'see grades', row: ['office'] },
      { to: paths.enter, text: 'Enter a sheet', within: /^\/enter/, errand: 'enter sheets', row: ['grader', 'office'] },
      { to: paths.held, text: 'Held', within: /^\/held/, errand: 'decide sheets', row: ['office'] },
      { to: paths.twiceGraded, text: 'Graded twice', within: /^\/twice-graded/, errand: 'decide sheets' },
      { to: paths.contested, text: 'Amendments', within: /^\/contested/, errand: 'confirm amendments' },
      {
        to: paths.retests,
        text: 'Retests',
        within: /^\/retest(s|-plans)/,
        errand: 'see grades',
        row: ['office', 'leader'],
      },
    ],
  },
  {
    title: 'Findings and standards',
    items: [
      {
        to: paths.measures,
        text: 'Findings',
        within: /^\/findings/,
        errand: 'see findings',
        row: ['office', 'commander', 'sponsor'],
      },
      { to: paths.standards, text: 'Standards', within: /^\/standards/ },
    ],
  },
  {
    title: 'Administration',
    items: [
      { to: paths.import, text: 'Import a file', within: /^\/import/, errand: 'manage people' },
      {
        to: paths.accounts,
        text: 'Accounts',
        within: /^\/accounts/,
        errand: 'manage accounts',
        row: ['administrator'],
      },
      {
        to: paths.backup,
        text: 'Backup',
        within: /^\/backup/,
        errand: 'keep backups',
        row: ['administrator'],
      },
      { to: paths.record, text: 'Record', within: /^\/record/, errand: 'read the record', row: ['administrator'] },
      { to: paths.notices, text: 'Notices', within: /^\/notices/ },
      { to: paths.account, text: 'My account', within: /^\/account$/ },
    ],
  },
]

/** The pages somebody with these roles has use for, by group; a group without any is left out. */
export const menuFor = (roles: readonly Role[]): MenuGroup[] =>
  GROUPS.map(({ title, items }) => ({
    title,
    items: items.filter(({ errand }) => !errand || may(roles, errand)),
  })).filter(({ items }) => items.length > 0)

const LONGEST_ROW = 5

/** The few pages of the row at the top, for the first of somebody's roles and then the others, so that it stays short. */
export const menuRow = (roles: readonly Role[]): MenuItem[] => {
  const items = menuFor(roles).flatMap((group) => group.items)
  const wanted = new Set(roles.flatMap((role) => items.filter(({ row }) => row?.includes(role))))
  const chosen = new Set([...wanted].slice(0, LONGEST_ROW))
  return items.filter((item) => chosen.has(item))
}
