/** The sign of the tool: two correct trials and an incorrect one between them. */
export function Mark({ size = 20 }: { size?: number }) {
  return (
    <svg width={(size * 21) / 20} height={size} viewBox="0 0 21 20" fill="currentColor" aria-hidden="true">
      <path d="M0 0h5v20H0zM8 11h5v9H8zM16 0h5v20h-5z" />
    </svg>
  )
}
