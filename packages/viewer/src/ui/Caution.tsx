/** Stands wherever a reader may go on from the picture to a real machine. */
export function Caution() {
  return (
    <p className="caution">
      On a real machine: motor leads unplugged and insulated before any horn, link or lead is touched (a hold switch is no
      disconnection), people clear, and sticks moved gently until you have seen that nothing binds. Local rules and licensed
      practice come first.
    </p>
  )
}
