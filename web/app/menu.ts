import { can, type Permission } from '#access/permissions.ts'
import type { Role } from '../domain/accounts/roles.ts'
import { paths } from '../paths.ts'

export interface MenuItem {
  to: string
  text: string
  /** The addresses under which the item is the one one is at. */
  within: RegExp
  /** What one must be let do; without it the page is for everybody who sees soldiers. */
  permission?: Permission
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
        permission: 'see-grades',
        row: ['leader', 'commander'],
      },
      {
        to: paths.ceremonies,
        text: 'Ceremonies',
        within: /^\/ceremonies/,
        permission: 'see-grades',
        row: ['leader', 'commander'],
      },
      {
        to: paths.candidates,
        text: 'Candidates',
        within: /^\/(candidates|sheets)/,
        permission: 'see-grades',
        row: ['leader', 'sponsor', 'grader'],
      },
      { to: paths.people, text: 'People', within: /^\/people/, permission: 'see-people' },
      { to: paths.firstSteps, text: 'First steps', within: /^\/first-steps/, permission: 'manage-people' },
      { to: paths.units, text: 'Units', within: /^\/units/, permission: 'manage-people' },
      {
        to: paths.armsAndGrades,
        text: 'Grades and what is carried',
        within: /^\/arms-and-grades/,
        permission: 'manage-people',
      },
      { to: paths.certificates, text: 'Certificates', within: /^\/certificates/, permission: 'manage-people' },
      { to: paths.approvals, text: 'To sign', within: /^\/approvals/, permission: 'see-people' },
      {
        to: paths.suspensions,
        text: 'Suspensions',
        within: /^\/suspensions/,
        permission: 'suspend',
        row: ['commander'],
      },
    ],
  },
  {
    title: 'Tests',
    items: [
      { to: paths.testDays, text: 'Test days', within: /^\/test-days/, permission: 'see-grades', row: ['office'] },
      {
        to: paths.enter,
        text: 'Enter a sheet',
        within: /^\/enter/,
        permission: 'enter-sheets',
        row: ['grader', 'office'],
      },
      { to: paths.held, text: 'Held', within: /^\/held/, permission: 'decide-sheets', row: ['office'] },
      { to: paths.twiceGraded, text: 'Graded twice', within: /^\/twice-graded/, permission: 'decide-sheets' },
      { to: paths.contested, text: 'Amendments', within: /^\/contested/, permission: 'confirm-amendments' },
      {
        to: paths.retests,
        text: 'Retests',
        within: /^\/retest(s|-plans)/,
        permission: 'see-grades',
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
        permission: 'see-findings',
        row: ['office', 'commander', 'sponsor'],
      },
      { to: paths.standards, text: 'Standards', within: /^\/standards/ },
    ],
  },
  {
    title: 'Help',
    items: [
      { to: paths.words, text: 'Words', within: /^\/words/ },
      { to: paths.roleCards, text: 'Role cards', within: /^\/role-cards/ },
    ],
  },
  {
    title: 'Administration',
    items: [
      { to: paths.import, text: 'Import a file', within: /^\/import/, permission: 'manage-people' },
      {
        to: paths.accounts,
        text: 'Accounts',
        within: /^\/accounts/,
        permission: 'manage-accounts',
        row: ['administrator'],
      },
      { to: paths.signOn, text: 'Single sign-on', within: /^\/sign-on/, permission: 'manage-accounts' },
      {
        to: paths.backup,
        text: 'Backup',
        within: /^\/backup/,
        permission: 'keep-backups',
        row: ['administrator'],
      },
      { to: paths.mail, text: 'Mail', within: /^\/mail/, permission: 'keep-mail', row: ['administrator'] },
      { to: paths.record, text: 'Record', within: /^\/record/, permission: 'read-record', row: ['administrator'] },
      { to: paths.notices, text: 'Notices', within: /^\/notices/ },
      { to: paths.account, text: 'My account', within: /^\/account$/ },
    ],
  },
]

/** The pages somebody with these roles has use for, by group; a group without any is left out. */
export const menuFor = (roles: readonly Role[]): MenuGroup[] =>
  GROUPS.map(({ title, items }) => ({
    title,
    items: items.filter(({ permission }) => !permission || can({ roles }, permission)),
  })).filter(({ items }) => items.length > 0)

const LONGEST_ROW = 5

/** The few pages of the row at the top, for the first of somebody's roles and then the others, so that it stays short. */
export const menuRow = (roles: readonly Role[]): MenuItem[] => {
  const items = menuFor(roles).flatMap((group) => group.items)
  const wanted = new Set(roles.flatMap((role) => items.filter(({ row }) => row?.includes(role))))
  const chosen = new Set([...wanted].slice(0, LONGEST_ROW))
  return items.filter((item) => chosen.has(item))
}
