interface KeptLineProps {
  /** The device takes long: what is shown is not on its disk yet. */
  isSlow: boolean
  /** What else waits on this device, in words; '' where nothing does. */
  waiting?: string
}

/** Whether what is shown is kept, in one line that is always there: a slow disk moves nothing under the thumb. */
export const KeptLine = ({ isSlow, waiting = '' }: KeptLineProps) => (
  <p className={`grade-kept ${isSlow ? 'is-slow' : waiting === '' ? 'is-quiet' : ''}`} role="status">
    {isSlow ? 'Not kept yet: saving is slow' : waiting || 'Kept on this phone'}
  </p>
)
