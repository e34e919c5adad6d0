/** Every address of the client, `:name` standing for what differs. */
export const paths = {
  overview: '/',
  desk: '/desk/:role',
  stand: '/stand',
  ahead: '/stand/ahead',
  ceremonies: '/ceremonies',
  newCeremony: '/ceremonies/new',
  ceremony: '/ceremonies/:id',
  ceremonyEdit: '/ceremonies/:id/edit',
  roster: '/ceremonies/:id/roster',
  candidates: '/candidates',
  candidate: '/candidates/:id',
  candidateDay: '/candidates/:id/day',
  extract: '/candidates/:id/extract',
  asKnown: '/candidates/:id/as-known',
  certificate: '/candidates/:id/certificate',
  certificates: '/certificates',
  sheet: '/sheets/:id',
  debrief: '/sheets/:id/debrief',
  grade: '/grade/*',
  enter: '/enter',
  held: '/held',
  contested: '/contested',
  record: '/record',
  retests: '/retests',
  retestPlan: '/retest-plans/:id',
  review: '/retests/:soldierId/:standard/review',
  testDays: '/test-days',
  testDay: '/test-days/:id',
  line: '/test-days/:id/line',
  twiceGraded: '/twice-graded',
  notices: '/notices',
  measures: '/findings/measures',
  trend: '/findings/trend',
  readings: '/findings/readings',
  pairs: '/findings/together',
  quality: '/findings/quality',
  sponsors: '/findings/sponsors',
  graders: '/findings/graders',
  timeToCertify: '/findings/time-to-certify',
  forecasts: '/findings/forecasts',
  people: '/people',
  requirements: '/people/requirements',
  person: '/people/:id',
  removePerson: '/people/:id/remove',
  firstSteps: '/first-steps',
  units: '/units',
  armsAndGrades: '/arms-and-grades',
  standards: '/standards',
  standard: '/standards/:id',
  draft: '/standards/:id/draft',
  tryDraft: '/standards/:id/draft/practice',
  terms: '/standards/terms/:code',
  paper: '/standards/:id/paper',
  study: '/standards/:id/study',
  suspensions: '/suspensions',
  approvals: '/approvals',
  import: '/import',
  importFile: '/import/:id',
  words: '/words',
  roleCards: '/role-cards',
  account: '/account',
  accounts: '/accounts',
  severalAccounts: '/accounts/several',
  factorRules: '/accounts/second-factor',
  signOn: '/sign-on',
  backup: '/backup',
  mail: '/mail',
  signIn: '/sign-in',
  setUp: '/setup',
  welcome: '/welcome',
  verify: '/verify',
} as const

/** Those of grading, which has a router of its own under `paths.grade`. */
export const gradePaths = {
  start: '/grade/start',
  practice: '/grade/practice/:id',
  sheet: '/grade/:id',
  debrief: '/grade/:id/debrief',
} as const

type Path = (typeof paths)[keyof typeof paths] | (typeof gradePaths)[keyof typeof gradePaths]

type Parameter<P extends string> = P extends `${string}:${infer Name}/${infer Rest}`
  ? Name | Parameter<Rest>
  : P extends `${string}:${infer Name}`
    ? Name
    : never

type Value = string | number

/**
 * An address with its parameters filled in. In: the path, and a value for each parameter; what else there is becomes the
 * query, without what is null, undefined or empty. Out: `/candidates/7?standard=rifle`.
 */
export function addressTo<P extends Path>(
  path: P,
  values: Readonly<Record<Parameter<P>, Value>> & Readonly<Record<string, Value | null | undefined>>,
): string {
  const query = new URLSearchParams()
  const parts = path.split('/')
  for (const [name, value] of Object.entries(values)) {
    const place = parts.indexOf(`:${name}`)
    if (place !== -1) parts[place] = encodeURIComponent(String(value))
    else if (value !== null && value !== undefined && value !== '') query.set(name, String(value))
  }
  return query.size > 0 ? `${parts.join('/')}?${query}` : parts.join('/')
}
