import { useQuery } from '@tanstack/react-query'
import { lazy, Suspense, useEffect } from 'react'
import { matchRoute, Route, Switch, useLocation, useRouter } from 'wouter'
import { can } from '#access/permissions.ts'
import { sessionQuery } from '../api/accounts/session.ts'
import { WaysToStepsContext } from '../parts/first-steps/filled-by.tsx'
import { paths } from '../paths.ts'
import { Page } from '../ui/page.tsx'
import { DeskPage } from './desks.tsx'
import { NotFound } from './error-page.tsx'
import { NotYours } from './not-yours.tsx'
import { PAGE_PERMISSIONS } from './page-permissions.ts'

const Stand = lazy(() => import('../features/readiness/page.tsx'))
const Ahead = lazy(() => import('../features/readiness/ahead/page.tsx'))
const Ceremonies = lazy(() => import('../features/ceremonies/list-page.tsx'))
const Ceremony = lazy(() => import('../features/ceremonies/page.tsx'))
const CeremonyEditor = lazy(() => import('../features/ceremonies/editor-page.tsx'))
const CeremonyRoster = lazy(() => import('../features/ceremonies/roster-page.tsx'))
const Candidates = lazy(() => import('../features/coaching/list-page.tsx'))
const Candidate = lazy(() => import('../features/coaching/page.tsx'))
const CandidateDay = lazy(() => import('../features/coaching/day-page.tsx'))
const Sheet = lazy(() => import('../features/sheets/page.tsx'))
const Debrief = lazy(() => import('../features/sheets/debrief-page.tsx'))
const Paper = lazy(() => import('../features/sheets/paper/page.tsx'))
const Study = lazy(() => import('../features/study/page.tsx'))
const Enter = lazy(() => import('../features/sheets/enter/page.tsx'))
const Held = lazy(() => import('../features/sheets/held/page.tsx'))
const Contested = lazy(() => import('../features/sheets/appeals/page.tsx'))
const Record = lazy(() => import('../features/record/page.tsx'))
const Approvals = lazy(() => import('../features/readiness/approvals/page.tsx'))
const Suspensions = lazy(() => import('../features/readiness/suspensions/page.tsx'))
const Account = lazy(() => import('../features/accounts/own/page.tsx'))
const Words = lazy(() => import('../features/help/words-page.tsx'))
const RoleCards = lazy(() => import('../features/help/cards-page.tsx'))
const Accounts = lazy(() => import('../features/accounts/page.tsx'))
const SeveralAccounts = lazy(() => import('../features/accounts/several/page.tsx'))
const FactorRules = lazy(() => import('../features/accounts/factor-rules-page.tsx'))
const Extract = lazy(() => import('../features/soldiers/extract/extract-page.tsx'))
const AsKnown = lazy(() => import('../features/soldiers/as-known/page.tsx'))
const Certificate = lazy(() => import('../features/soldiers/extract/certificate-page.tsx'))
const Certificates = lazy(() => import('../features/soldiers/extract/look-up-page.tsx'))
const SignOn = lazy(() => import('../features/sign-on/page.tsx'))
const Backup = lazy(() => import('../features/backups/page.tsx'))
const Mail = lazy(() => import('../features/mail/page.tsx'))
const TestDays = lazy(() => import('../features/test-days/list-page.tsx'))
const TestDay = lazy(() => import('../features/test-days/page.tsx'))
const Line = lazy(() => import('../features/test-days/line-page.tsx'))
const TwiceGraded = lazy(() => import('../features/sheets/second-gradings/page.tsx'))
const Review = lazy(() => import('../features/readiness/retests/review-page.tsx'))
const Notices = lazy(() => import('../features/notices/page.tsx'))
const RetestPlan = lazy(() => import('../features/plans/page.tsx'))
const Retests = lazy(() => import('../features/readiness/retests/page.tsx'))
const Measures = lazy(() => import('../features/findings/measures-page.tsx'))
const Trend = lazy(() => import('../features/findings/trend-page.tsx'))
const Readings = lazy(() => import('../features/findings/readings-page.tsx'))
const Pairs = lazy(() => import('../features/findings/pairs-page.tsx'))
const Quality = lazy(() => import('../features/findings/quality-page.tsx'))
const Sponsors = lazy(() => import('../features/findings/sponsors-page.tsx'))
const Graders = lazy(() => import('../features/findings/graders-page.tsx'))
const TimeToCertify = lazy(() => import('../features/findings/time-page.tsx'))
const Forecasts = lazy(() => import('../features/findings/forecasts-page.tsx'))
const People = lazy(() => import('../features/soldiers/list-page.tsx'))
const Requirements = lazy(() => import('../features/soldiers/requirements-page.tsx'))
const FirstSteps = lazy(() => import('../features/first-steps/page.tsx'))
const Units = lazy(() => import('../features/soldiers/units/page.tsx'))
const Lists = lazy(() => import('../features/lists/page.tsx'))
const Import = lazy(() => import('../features/imports/page.tsx'))
const ImportFile = lazy(() => import('../features/imports/file-page.tsx'))
const RemovePerson = lazy(() => import('../features/soldiers/remove-page.tsx'))
const Person = lazy(() => import('../features/soldiers/page.tsx'))
const Standards = lazy(() => import('../features/standards/list-page.tsx'))
const Draft = lazy(() => import('../features/standards/draft-page.tsx'))
const Phone = lazy(() => import('../features/sheets/draft/phone.tsx'))
const DraftPaper = lazy(() => import('../features/sheets/draft/paper.tsx'))
const Terms = lazy(() => import('../features/standards/terms-page.tsx'))
const Standard = lazy(() => import('../features/standards/page.tsx'))
const WaysToSteps = lazy(() => import('./ways-to-steps.tsx'))

/** What a grader will have of a draft, for the page on which it is written. */
const DRAFT_SHEETS = { Phone, Paper: DraftPaper }

let wentBack = false
window.addEventListener('popstate', () => {
  wentBack = true
})

/** A page one goes to begins at its top; one that one comes back to stays where it was. */
const useScrollToTop = () => {
  const [path] = useLocation()
  // biome-ignore lint/correctness/useExhaustiveDependencies: runs when the path changes
  useEffect(() => {
    if (!wentBack) window.scrollTo(0, 0)
    wentBack = false
  }, [path])
}

/** Of the page at this address, what one would have to be let do and is not; undefined where one may open it. */
const useLackingPermission = () => {
  const [path] = useLocation()
  const { parser } = useRouter()
  const roles = useQuery(sessionQuery).data?.roles ?? []
  // An account without a role is a soldier's.
  const own = roles.length > 0 ? roles : (['soldier'] as const)
  const page = PAGE_PERMISSIONS.find((one) => matchRoute(parser, one.path, path)[0])
  return page && !can({ roles: own }, page.permission) ? page : undefined
}

/** The pages of somebody signed in. One that is for other roles says whose it is and asks the server nothing. */
export function Pages() {
  useScrollToTop()
  const lacking = useLackingPermission()
  if (lacking) return <NotYours key={lacking.path} title={lacking.title} permission={lacking.permission} />
  return (
    <WaysToStepsContext value={WaysToSteps}>
      <Suspense fallback={<Page title="Reviewstand" />}>
        <Switch>
          <Route path={paths.overview}>{() => <DeskPage />}</Route>
          <Route path={paths.desk}>{({ role }) => <DeskPage key={role} of={role} />}</Route>
          <Route path={paths.ahead} component={Ahead} />
          <Route path={paths.stand} component={Stand} />
          <Route path={paths.ceremonies} component={Ceremonies} />
          <Route path={paths.newCeremony}>{() => <CeremonyEditor key="new" id="" />}</Route>
          <Route path={paths.ceremonyEdit}>{({ id }) => <CeremonyEditor key={id} id={id} />}</Route>
          <Route path={paths.roster}>{({ id }) => <CeremonyRoster key={id} id={id} />}</Route>
          <Route path={paths.ceremony}>{({ id }) => <Ceremony key={id} id={id} />}</Route>
          <Route path={paths.candidates} component={Candidates} />
          <Route path={paths.candidate}>{({ id }) => <Candidate key={id} id={id} />}</Route>
          <Route path={paths.candidateDay}>{({ id }) => <CandidateDay key={id} id={id} />}</Route>
          <Route path={paths.asKnown}>{({ id }) => <AsKnown key={id} id={id} />}</Route>
          <Route path={paths.extract}>{({ id }) => <Extract key={id} id={id} />}</Route>
          <Route path={paths.certificate}>{({ id }) => <Certificate key={id} id={id} />}</Route>
          <Route path={paths.certificates} component={Certificates} />
          <Route path={paths.sheet}>{({ id }) => <Sheet key={id} id={id} />}</Route>
          <Route path={paths.debrief}>{({ id }) => <Debrief key={id} id={id} />}</Route>
          <Route path={paths.enter} component={Enter} />
          <Route path={paths.held} component={Held} />
          <Route path={paths.contested} component={Contested} />
          <Route path={paths.record} component={Record} />
          <Route path={paths.approvals} component={Approvals} />
          <Route path={paths.suspensions} component={Suspensions} />
          <Route path={paths.import} component={Import} />
          <Route path={paths.importFile}>{({ id }) => <ImportFile key={id} id={id} />}</Route>
          <Route path={paths.words} component={Words} />
          <Route path={paths.roleCards} component={RoleCards} />
          <Route path={paths.account} component={Account} />
          <Route path={paths.severalAccounts} component={SeveralAccounts} />
          <Route path={paths.factorRules} component={FactorRules} />
          <Route path={paths.accounts} component={Accounts} />
          <Route path={paths.signOn} component={SignOn} />
          <Route path={paths.backup} component={Backup} />
          <Route path={paths.mail} component={Mail} />
          <Route path={paths.testDays} component={TestDays} />
          <Route path={paths.testDay}>{({ id }) => <TestDay key={id} id={id} />}</Route>
          <Route path={paths.line}>{({ id }) => <Line key={id} id={id} />}</Route>
          <Route path={paths.twiceGraded} component={TwiceGraded} />
          <Route path={paths.review}>
            {({ soldierId, standard }) => <Review soldierId={soldierId} standard={standard} />}
          </Route>
          <Route path={paths.notices} component={Notices} />
          <Route path={paths.retestPlan} component={RetestPlan} />
          <Route path={paths.retests} component={Retests} />
          <Route path={paths.measures} component={Measures} />
          <Route path={paths.trend} component={Trend} />
          <Route path={paths.readings} component={Readings} />
          <Route path={paths.pairs} component={Pairs} />
          <Route path={paths.quality} component={Quality} />
          <Route path={paths.sponsors} component={Sponsors} />
          <Route path={paths.graders} component={Graders} />
          <Route path={paths.timeToCertify} component={TimeToCertify} />
          <Route path={paths.forecasts} component={Forecasts} />
          <Route path={paths.people} component={People} />
          <Route path={paths.requirements} component={Requirements} />
          <Route path={paths.removePerson}>{({ id }) => <RemovePerson key={id} id={id} />}</Route>
          <Route path={paths.person}>{({ id }) => <Person key={id} id={id} />}</Route>
          <Route path={paths.firstSteps} component={FirstSteps} />
          <Route path={paths.units} component={Units} />
          <Route path={paths.armsAndGrades} component={Lists} />
          <Route path={paths.standards} component={Standards} />
          <Route path={paths.study}>{({ id }) => <Study key={id} id={id} />}</Route>
          <Route path={paths.paper}>{({ id }) => <Paper key={id} id={id} />}</Route>
          <Route path={paths.draft}>{({ id }) => <Draft key={id} id={id} sheets={DRAFT_SHEETS} />}</Route>
          <Route path={paths.terms}>{({ code }) => <Terms key={code} code={code} />}</Route>
          <Route path={paths.standard}>{({ id }) => <Standard key={id} id={id} />}</Route>
          <Route component={NotFound} />
        </Switch>
      </Suspense>
    </WaysToStepsContext>
  )
}
