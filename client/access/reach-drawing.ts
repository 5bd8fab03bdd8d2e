/** Who may see what of one player, as a list. */
import { html, type TemplateResult } from "lit-html";
import type { Reaches } from "../../server/contract/access.ts";
import { day } from "../shell/words.ts";
import { kindName, reachWords } from "./access-model.ts";

export const reachList = ({ takes, tokens }: Reaches): TemplateResult =>
  tokens.length === 0
    ? html`<p class="empty">Nobody but whoever sits at this machine.</p>`
    : html`<ul class="words reach-list">
        ${tokens.map(
          (token) => html`<li>
            <strong>${token.name}</strong> (${kindName(token.role).toLowerCase()}): ${reachWords(token, takes)}<span class="faint">,
              since ${day(token.createdAt)}${token.expiresAt === null ? "" : `, until ${day(token.expiresAt)}`}</span>
          </li>`,
        )}
      </ul>`;
