/** Every editor feature, one line each. Where the order matters to a reader, it is that of what users feel most. */
import type { Feature } from '../session.ts';
import { checkPages } from './checkPages.ts';
import { codeActions } from './codeActions.ts';
import { codeLens } from './codeLens.ts';
import { completion } from './completion.ts';
import { definition } from './definition.ts';
import { diagnostics } from './diagnostics.ts';
import { fileRename } from './fileRename.ts';
import { folding } from './folding.ts';
import { formatting } from './formatting.ts';
import { callHierarchy, typeHierarchy } from './hierarchy.ts';
import { hover } from './hover.ts';
import { inlayHints } from './inlayHints.ts';
import { links } from './links.ts';
import { overview } from './overview.ts';
import { pictures } from './pictures.ts';
import { references } from './references.ts';
import { rename } from './rename.ts';
import { requests } from './requests.ts';
import { schedule } from './schedule.ts';
import { selection } from './selection.ts';
import { semanticTokens } from './semanticTokens.ts';
import { signatureHelp } from './signatureHelp.ts';
import { symbols } from './symbols.ts';

export const features: readonly Feature[] = [
  diagnostics,
  completion,
  hover,
  codeActions,
  signatureHelp,
  definition,
  references,
  rename,
  symbols,
  semanticTokens,
  inlayHints,
  codeLens,
  folding,
  formatting,
  selection,
  links,
  callHierarchy,
  typeHierarchy,
  fileRename,
  checkPages,
  requests,
  schedule,
  overview,
  pictures,
];
