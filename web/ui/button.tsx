import './button.css'

type ButtonProps = React.ComponentProps<'button'> & { kind?: 'plain' | 'main' | 'quiet' }

/** A button; `main` is the one thing to do next, `quiet` looks like a link. */
export function Button({ kind = 'plain', className = '', type = 'button', ...rest }: ButtonProps) {
  return <button type={type} className={`button button-${kind} ${className}`} {...rest} />
}
