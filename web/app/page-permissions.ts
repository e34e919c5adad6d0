import type { Permission } from '#access/permissions.ts'
import { paths } from '../paths.ts'

interface PagePermission {
  path: string
  /** What the page is called. */
  title: string
  permission: Permission
}

/** The pages that are not for everybody, by address, the narrower address first. Any other asks the server whom it is for. */
export const PAGE_PERMISSIONS: readonly PagePermission[] = [
  { path: paths.ahead, title: 'Ready on a day', permission: 'see-grades' },
  { path: paths.stand, title: 'Who can stand', permission: 'see-grades' },
  { path: paths.newCeremony, title: 'Plan a ceremony', permission: 'plan-ceremonies' },
  { path: paths.ceremonyEdit, title: 'Change a ceremony', permission: 'plan-ceremonies' },
  { path: paths.ceremonies, title: 'Ceremonies', permission: 'see-grades' },
  { path: paths.ceremony, title: 'Ceremony', permission: 'see-grades' },
  { path: paths.roster, title: 'Roster', permission: 'see-grades' },
  { path: paths.candidates, title: 'Candidates', permission: 'see-grades' },
  { path: paths.candidate, title: 'Candidate', permission: 'see-grades' },
  { path: paths.candidateDay, title: 'Day of the test', permission: 'see-grades' },
  { path: paths.asKnown, title: 'As known on a day', permission: 'see-soldiers' },
  { path: paths.certificates, title: 'Certificates', permission: 'manage-people' },
  { path: paths.sheet, title: 'Grade sheet', permission: 'see-grades' },
  { path: paths.debrief, title: 'Debrief', permission: 'see-grades' },
  { path: paths.enter, title: 'Enter a sheet', permission: 'enter-sheets' },
  { path: paths.held, title: 'Held sheets', permission: 'decide-sheets' },
  { path: paths.contested, title: 'Amendments', permission: 'confirm-amendments' },
  { path: paths.twiceGraded, title: 'Graded twice', permission: 'decide-sheets' },
  { path: paths.record, title: 'Record', permission: 'read-record' },
  { path: paths.approvals, title: 'To sign', permission: 'see-people' },
  { path: paths.suspensions, title: 'Suspensions', permission: 'suspend' },
  { path: paths.retestPlan, title: 'Retest plan', permission: 'plan-test-days' },
  { path: paths.review, title: 'Review', permission: 'see-grades' },
  { path: paths.retests, title: 'Retests', permission: 'see-grades' },
  { path: paths.testDays, title: 'Test days', permission: 'see-grades' },
  { path: paths.testDay, title: 'Test day', permission: 'see-grades' },
  { path: paths.line, title: 'On the line', permission: 'see-grades' },
  { path: '/findings/*', title: 'Findings', permission: 'see-findings' },
  { path: paths.firstSteps, title: 'First steps', permission: 'manage-people' },
  { path: paths.units, title: 'Units', permission: 'manage-people' },
  { path: paths.people, title: 'People', permission: 'see-people' },
  { path: paths.requirements, title: 'Who must hold what', permission: 'see-people' },
  { path: paths.removePerson, title: 'Remove personal data', permission: 'manage-people' },
  { path: paths.person, title: 'Soldier', permission: 'see-people' },
  { path: paths.draft, title: 'Draft of a standard', permission: 'manage-standards' },
  { path: '/import/*?', title: 'Import a file', permission: 'manage-people' },
  { path: paths.severalAccounts, title: 'Accounts for many', permission: 'manage-accounts' },
  { path: paths.factorRules, title: 'Second factor by role', permission: 'manage-accounts' },
  { path: paths.accounts, title: 'Accounts', permission: 'manage-accounts' },
  { path: paths.signOn, title: 'Single sign-on', permission: 'manage-accounts' },
  { path: paths.backup, title: 'Backup', permission: 'keep-backups' },
  { path: paths.mail, title: 'Mail', permission: 'keep-mail' },
]
