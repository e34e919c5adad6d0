/** Posts that are manned for a stretch of time, in milliseconds since 1970. */
interface Need {
  readonly from: number
  readonly to: number
  readonly posts: number
}

/** The most posts that are manned at one time, since nobody stands in two places. One that begins as another ends is after it. */
export function postsAtOnce(needs: readonly Need[]): number {
  return Math.max(
    0,
    ...needs.map(({ from: at }) =>
      needs.filter(({ from, to }) => from <= at && at < to).reduce((sum, { posts }) => sum + posts, 0),
    ),
  )
}
