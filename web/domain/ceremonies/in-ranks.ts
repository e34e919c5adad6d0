interface Placed {
  row: number
  place: number
}

/** Posts rank by rank, front rank first, each from the rank's right (at the left for who looks at it from the front). */
export const inRanks = <Post extends Placed>(posts: readonly Post[]): Post[][] => {
  const rows = [...new Set(posts.map(({ row }) => row))].sort((a, b) => a - b)
  return rows.map((row) => posts.filter((post) => post.row === row).sort((a, b) => a.place - b.place))
}
