import './state-mark.css'

/** The states a certification can have, in the order in which a platoon is drawn. */
export const STATES = [
  'certified',
  'awaiting approval',
  'part way',
  'retest due',
  'lapsed',
  'suspended',
  'no test yet',
] as const

export type State = (typeof STATES)[number]

export const STATE_WORDS: Record<State, string> = {
  certified: 'Certified',
  'awaiting approval': 'Awaiting approval',
  'part way': 'Part way',
  'retest due': 'Retest due',
  lapsed: 'Lapsed',
  suspended: 'Suspended',
  'no test yet': 'No test yet',
}

const SHAPES: Record<State, React.ReactNode> = {
  certified: <circle cx="8" cy="8" r="6.5" fill="currentColor" />,
  'awaiting approval': (
    <>
      <circle cx="8" cy="6" r="4" fill="none" stroke="currentColor" strokeWidth="1.8" />
      <path d="M1.5 14h13" stroke="currentColor" strokeWidth="2" />
    </>
  ),
  'part way': (
    <>
      <circle cx="8" cy="8" r="5.75" fill="none" stroke="currentColor" strokeWidth="1.6" />
      <path d="M8 2.2a5.8 5.8 0 0 1 0 11.6z" fill="currentColor" />
    </>
  ),
  'retest due': (
    <>
      <path d="M8 1.4 14.6 8 8 14.6 1.4 8z" fill="none" stroke="currentColor" strokeWidth="1.8" />
      <circle cx="8" cy="8" r="2" fill="currentColor" />
    </>
  ),
  lapsed: (
    <>
      <circle cx="8" cy="8" r="5.75" fill="none" stroke="currentColor" strokeWidth="1.6" />
      <path d="M3.5 12.5 12.5 3.5" stroke="currentColor" strokeWidth="1.8" />
    </>
  ),
  suspended: (
    <>
      <rect x="2" y="2" width="12" height="12" fill="none" stroke="currentColor" strokeWidth="1.8" />
      <path d="M5 8h6" stroke="currentColor" strokeWidth="2.2" />
    </>
  ),
  'no test yet': <circle cx="8" cy="8" r="2.4" fill="currentColor" />,
}

const className = (state: State) => `state-${state.replaceAll(' ', '-')}`

/** The shape of a state, for use beside its word or within a drawing that says it in words. */
export function StateMark({ state, size = 16 }: { state: State; size?: number }) {
  return (
    <svg className={`state-mark ${className(state)}`} width={size} height={size} viewBox="0 0 16 16" aria-hidden="true">
      {SHAPES[state]}
    </svg>
  )
}

/** Shape and word together. */
export function StateWord({ state }: { state: State }) {
  return (
    <span className={`state-word ${className(state)}`}>
      <StateMark state={state} />
      {STATE_WORDS[state]}
    </span>
  )
}
