/** Code that may be broken behind its commas, when it must. */
export function Code({ text }: { readonly text: string }) {
  return (
    <code class="feed-code">
      {text
        .split(/(?<=,)/)
        .flatMap((part, index) => (index === 0 ? [part] : [<wbr key={index} />, part]))}
    </code>
  );
}
