import { ofAll } from '../../words/of-all.ts'
import './post-bar.css'

interface Posts {
  posts: number
  filled: number
}

/** The posts of a ceremony, one mark each: solid filled, hollow short. The words stand beside it. */
export function PostBar({ posts, filled }: Posts) {
  return (
    <span className="post-bar" aria-hidden="true">
      {Array.from({ length: posts }, (_, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: posts are drawn alike
        <i key={index} className={index < filled ? 'post-bar-filled' : ''} />
      ))}
    </span>
  )
}

/** "9 of 11 filled". */
export function PostsFilled({ posts, filled }: Posts) {
  return <span className={filled < posts ? 'posts-short' : 'muted'}>{ofAll(filled, posts)} filled</span>
}
