import type { Permission } from '#access/permissions.ts'
import { gradePaths, paths } from '../../paths.ts'

/** A page, or what one does on it. */
export interface Place {
  readonly title: string
  readonly to: string
  /** Other words that people look for it by. */
  readonly also?: string
  readonly permission?: Permission
  /** The parameter of the address that takes a day. */
  readonly dayIn?: string
}

/** Pages and what one does there, those first that are asked for most. A new page gets its line here. */
export const PLACES: readonly Place[] = [
  {
    title: 'Who can stand',
    also: 'may certified day ceremony readiness',
    to: paths.stand,
    permission: 'see-grades',
    dayIn: 'asOf',
  },
  {
    title: 'Will we be ready on a day',
    also: 'readiness ahead forecast enough what if',
    to: paths.ahead,
    permission: 'see-grades',
    dayIn: 'on',
  },
  { title: 'Enter a sheet from paper', also: 'grade test result type', to: paths.enter, permission: 'enter-sheets' },
  { title: 'Practise a test', also: 'practice drill phone', to: gradePaths.start, permission: 'enter-sheets' },
  { title: 'Held sheets: decide', also: 'count reject release', to: paths.held, permission: 'decide-sheets' },
  { title: 'Retests: who is due', also: 'backlog overdue open', to: paths.retests, permission: 'see-grades' },
  { title: 'Plan retests', also: 'book proposal schedule slots', to: paths.retests, permission: 'plan-test-days' },
  {
    title: 'Move a due day',
    also: 'change retest extend postpone',
    to: paths.retests,
    permission: 'plan-test-days',
  },
  { title: 'Plan a test day', also: 'schedule event new book', to: paths.testDays, permission: 'plan-test-days' },
  { title: 'Book a candidate for a test', also: 'booking slot', to: paths.testDays, permission: 'plan-test-days' },
  { title: 'Call off a test day', also: 'cancel', to: paths.testDays, permission: 'plan-test-days' },
  { title: 'Test days', also: 'calendar dates line', to: paths.testDays, permission: 'see-grades' },
  { title: 'Plan a ceremony', also: 'new posts detail', to: paths.newCeremony, permission: 'plan-ceremonies' },
  { title: 'Ceremonies', also: 'posts alternates manning roster', to: paths.ceremonies, permission: 'see-grades' },
  { title: 'Candidates', also: 'soldiers attempts coaching', to: paths.candidates, permission: 'see-grades' },
  { title: 'Suspend a soldier, or lift it', also: 'suspension stop', to: paths.suspensions, permission: 'suspend' },
  {
    title: 'Sign or refuse certifications',
    also: 'approve approval commander signature waiting',
    to: paths.approvals,
    permission: 'approve-awards',
  },
  {
    title: 'Extend a certification',
    also: 'extension deployment injury commander validity',
    to: paths.candidates,
    permission: 'approve-awards',
  },
  {
    title: 'Amendments: confirm or appeal',
    also: 'correct sheet contested second person',
    to: paths.contested,
    permission: 'confirm-amendments',
  },
  {
    title: 'Sheets graded twice',
    also: 'second grader differ compare',
    to: paths.twiceGraded,
    permission: 'decide-sheets',
  },
  { title: 'Add a soldier', also: 'new recruit person', to: paths.people, permission: 'manage-people' },
  {
    title: 'Move a soldier to another unit',
    also: 'transfer platoon company grade promote',
    to: paths.people,
    permission: 'manage-people',
  },
  { title: 'Enter an absence', also: 'leave away sick', to: paths.people, permission: 'manage-people' },
  { title: 'Name a sponsor', also: 'sponsorship coach', to: paths.people, permission: 'manage-people' },
  {
    title: 'Merge two entries of one soldier',
    also: 'duplicate double',
    to: paths.people,
    permission: 'manage-people',
  },
  { title: 'People', also: 'roster strength soldiers', to: paths.people, permission: 'see-people' },
  { title: 'Who must hold what', also: 'requirements required', to: paths.requirements, permission: 'see-people' },
  {
    title: 'Import a file',
    also: 'roster spreadsheet upload csv xlsx results paste rows by hand people',
    to: paths.import,
    permission: 'manage-people',
  },
  { title: 'Certificates', also: 'print award', to: paths.certificates, permission: 'manage-people' },
  {
    title: 'Units',
    also: 'platoon company flight squad team level words new rename move order close time zone',
    to: paths.units,
    permission: 'manage-people',
  },
  {
    title: 'Grades and what is carried',
    also: 'arms sword saber rifle ranks list',
    to: paths.armsAndGrades,
    permission: 'manage-people',
  },
  { title: 'First steps', also: 'start set up begin', to: paths.firstSteps, permission: 'manage-people' },
  {
    title: 'Begin or change a standard',
    also: 'draft version measures calls publish',
    to: paths.standards,
    permission: 'manage-standards',
  },
  {
    title: 'Change the terms of a certification',
    also: 'validity window waiting retest days',
    to: paths.standards,
    permission: 'manage-standards',
  },
  { title: 'Standards and certifications', also: 'manual paper call list blank sheet print', to: paths.standards },
  { title: 'Failing measures', also: 'findings weak faults', to: paths.measures, permission: 'see-findings' },
  { title: 'Month by month', also: 'findings trend', to: paths.trend, permission: 'see-findings' },
  { title: 'Readings', also: 'findings gauges heights angles', to: paths.readings, permission: 'see-findings' },
  { title: 'Measures failing together', also: 'findings pairs', to: paths.pairs, permission: 'see-findings' },
  {
    title: 'Standards as tests',
    also: 'findings quality reliability',
    to: paths.quality,
    permission: 'see-findings',
  },
  { title: 'Sponsors compared', also: 'findings', to: paths.sponsors, permission: 'see-findings' },
  {
    title: 'Graders compared',
    also: 'findings severity strict lenient agreement void',
    to: paths.graders,
    permission: 'see-findings',
  },
  { title: 'Time to certify', also: 'findings days median', to: paths.timeToCertify, permission: 'see-findings' },
  { title: 'Are forecasts any good', also: 'findings calibration', to: paths.forecasts, permission: 'see-findings' },
  {
    title: 'Accounts: make, change, new link',
    also: 'user password role',
    to: paths.accounts,
    permission: 'manage-accounts',
  },
  {
    title: 'Accounts for many: links to print or save',
    also: 'user invite all at once without',
    to: paths.severalAccounts,
    permission: 'manage-accounts',
  },
  { title: 'Backup', also: 'restore archive save', to: paths.backup, permission: 'keep-backups' },
  { title: 'Mail: queue, failures, test', also: 'email smtp bounce address', to: paths.mail, permission: 'keep-mail' },
  {
    title: 'Single sign-on',
    also: 'provider directory OpenID Connect OIDC SSO sign in log in',
    to: paths.signOn,
    permission: 'manage-accounts',
  },
  { title: 'Record of changes', also: 'audit verify who did', to: paths.record, permission: 'read-record' },
  { title: 'Notices', also: 'messages news', to: paths.notices },
  {
    title: 'My account: password, theme, calendar, mail',
    also: 'sign out settings feed email address',
    to: paths.account,
  },
  { title: 'Words', also: 'glossary meaning help trade terms', to: paths.words },
  { title: 'Role cards', also: 'help how to instructions print', to: paths.roleCards },
]
