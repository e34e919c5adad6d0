import './kbd.css'
import './list-keys.css'

/** Which keys go through a list that is one stop of the Tab key; where there is no keyboard it is not shown. */
export function ListKeys({ id, more }: { id: string; more: React.ReactNode }) {
  return (
    <p id={id} className="list-keys">
      <kbd>↑</kbd> <kbd>↓</kbd> go through the list, {more}
    </p>
  )
}
