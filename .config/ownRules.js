/** Lint rules of this house. Each message names what to do instead. */

const letters = /\p{L}{2}/u;
const hexColour = /#(?:[0-9a-f]{8}|[0-9a-f]{6}|[0-9a-f]{3,4})(?![\w-])/i;
const spokenAttributes = new Set(['aria-label', 'aria-description', 'title', 'alt', 'placeholder', 'label']);

const toWords =
  'Visible words stand in the catalogue: add them to the room’s file in src/words and use them from there.';
const toTokens =
  'Colours stand in src/look/tokens.ts: add a token there, and use it (in the window: var(--…)).';

/** The texts that an expression may come to, as far as they stand in it. */
function* texts(node) {
  if (!node) return;
  if (node.type === 'Literal' && typeof node.value === 'string') yield [node, node.value];
  else if (node.type === 'TemplateLiteral') for (const part of node.quasis) yield [node, part.value.raw];
  else if (node.type === 'ConditionalExpression') {
    yield* texts(node.consequent);
    yield* texts(node.alternate);
  } else if (node.type === 'LogicalExpression') yield* texts(node.right);
  else if (node.type === 'JSXExpressionContainer') yield* texts(node.expression);
}

const wordsInCatalogue = {
  meta: { type: 'problem', schema: [], messages: { words: toWords } },
  create(context) {
    const check = (node) => {
      for (const [at, text] of texts(node))
        if (letters.test(text)) context.report({ node: at, messageId: 'words' });
    };
    return {
      JSXText(node) {
        if (letters.test(node.value)) context.report({ node, messageId: 'words' });
      },
      'JSXElement > JSXExpressionContainer': check,
      'JSXFragment > JSXExpressionContainer': check,
      JSXAttribute(node) {
        if (spokenAttributes.has(node.name.name)) check(node.value);
      },
    };
  },
};

const coloursInTokens = {
  meta: { type: 'problem', schema: [], messages: { colour: toTokens } },
  create(context) {
    const check = (node, text) => {
      if (hexColour.test(text)) context.report({ node, messageId: 'colour' });
    };
    return {
      Literal(node) {
        if (typeof node.value === 'string') check(node, node.value);
      },
      TemplateElement(node) {
        check(node, node.value.raw);
      },
    };
  },
};

const reasonedExceptions = {
  meta: {
    type: 'problem',
    schema: [],
    messages: { reason: 'An exception from a rule says why: eslint-disable-next-line RULE -- the reason.' },
  },
  create(context) {
    return {
      Program() {
        for (const comment of context.sourceCode.getAllComments())
          if (/^\s*eslint-disable/.test(comment.value) && !/ -- \S/.test(comment.value))
            context.report({ loc: comment.loc, messageId: 'reason' });
      },
    };
  },
};

const noOtherScreen = {
  meta: {
    type: 'problem',
    schema: [{ type: 'object' }],
    messages: {
      screen:
        'Screens do not look into each other ({{other}}). Move what both need to frame, keys, look, map or stores.',
    },
  },
  create(context) {
    const [{ others }] = context.options;
    return {
      ImportDeclaration(node) {
        const match = /^(?:\.\.\/)+([^./][^/]*)\//.exec(String(node.source.value));
        if (match && others.includes(match[1]))
          context.report({ node, messageId: 'screen', data: { other: match[1] } });
      },
    };
  },
};

export const ownRules = {
  rules: {
    'words-in-catalogue': wordsInCatalogue,
    'colours-in-tokens': coloursInTokens,
    'reasoned-exceptions': reasonedExceptions,
    'no-other-screen': noOtherScreen,
  },
};
