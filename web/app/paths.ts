/** Every address of the client in one place. */
export const paths = {
  overview: '/',
  stand: '/stand',
  candidates: '/candidates',
  candidate: '/candidates/:id',
  sheet: '/sheets/:id',
  enter: '/enter',
  held: '/held',
  contested: '/contested',
  record: '/record',
  retests: '/retests',
  measures: '/findings/measures',
  sponsors: '/findings/sponsors',
  standards: '/standards',
  standard: '/standards/:id',
  signIn: '/sign-in',
  setUp: '/setup',
} as const
