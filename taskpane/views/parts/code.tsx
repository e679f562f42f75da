/** A formula as the user's spreadsheet writes it. It may be broken behind its separators, when it must. */
import { useTools } from "./tools.js";

export function Code({ text }: { readonly text: string }) {
  const { host } = useTools();
  const shown = host.shownFormula?.(text) ?? text;
  return (
    <code class="feed-code">
      {shown
        .split(/(?<=[,;])/)
        .flatMap((part, index) => (index === 0 ? [part] : [<wbr key={index} />, part]))}
    </code>
  );
}
