"""The sentences of errors, as the code says them: what is wrong, and how to mend it.

An error is made where an ErrorCode stands first and text behind it: fail(code, what, where, mend),
Error{code, …}, or a helper that HELPERS names. What is put into a sentence (fmt::format's {}, or
what + joins) becomes {0}, {1}, …. tools/check_messages holds these forms against
data/base/messages_errors.csv.
"""
import itertools
import re

# Helpers that are handed the text: which of their arguments are sentences.
HELPERS = {
    'no_chart': (1, 2), 'bad': (0, 1), 'unreadable': (0,), 'no_sense': (0,), 'refusal': (1, 3),
    'wrong': (1,), 'error_part': (0,), 'word_at': (2,),
}
# What a helper hands on, and what is a part marked elsewhere.
HANDED_ON = {
    'std::move(what)', 'std::move(mend)', 'std::move(message)', 'std::move(hint)', 'what', 'mend',
    'why', 'hint', 'hint()', 'how', 'text', 'english', 'const char* what', 'suggestion_for(key)',
    'system_words(errno)', 'system_words(problem)', 'system_words(problem.value())', 'way_in(own)',
    'std::string_view what', 'text("what")', 'text("mend")', 'range_hint(rule)', 'std::string(hint)', 'problem.what()', 'error.hint', '{}', '""',
}
# Where an error is, where that is said in words and not by a path.
WHERES = ['command line', 'standard input', 'request line', 'title or label', 'the book',
          'line {0}', 'line {0}, column {1}', 'visit {0}', 'fact {0}', '{0}, row {1}',
          'strip of visit {0}']
# What the libraries say that read a command line or JSON, and the system (POSIX) and SQLite about
# files; each as it stands in them. Other words of theirs stay English.
OUTSIDE = [
    'The following argument was not expected: {0}', 'The following arguments were not expected: {0}',
    '{0} is required', '{0}: 1 required {1} missing', 'Could not convert: {0} = {1}',
    'unexpected {0}; expected {1}', 'unexpected {0}', 'end of input', 'string literal',
    'number literal', 'true literal', 'false literal', 'null literal', "'[', '{', or a literal",
    'invalid literal', 'invalid string: missing closing quote',
    'invalid string: forbidden character after backslash',
    'invalid string: control character {0} must be escaped to {1}',
    "invalid string: '\\u' must be followed by 4 hex digits",
    'invalid string: surrogate U+D800..U+DBFF must be followed by U+DC00..U+DFFF',
    'invalid string: surrogate U+DC00..U+DFFF must follow U+D800..U+DBFF',
    "invalid number; expected digit after '-'", "invalid number; expected digit after '.'",
    "invalid number; expected digit after exponent sign",
    "invalid number; expected '+', '-', or digit after exponent",
    'No such file or directory', 'Permission denied', 'No space left on device',
    'Read-only file system', 'Address already in use', 'Cannot assign requested address',
    'Is a directory', 'Not a directory', 'File exists', 'Input/output error',
    'Too many open files', 'Disk quota exceeded', 'Cannot allocate memory',
    'File name too long', 'Operation not permitted',
    'database is locked', 'database disk image is malformed', 'file is not a database',
    'disk I/O error', 'database or disk is full', 'unable to open database file',
    'attempt to write a readonly database', ' or ',
]
# Files whose `required` describes an answer, which nobody has to send.
ANSWERS = re.compile(r'_(answer|text)\.cpp$')
OPENERS, CLOSERS = '([{', ')]}'
TEXT = re.compile(r'(?:\s*(?:"(?:[^"\\]|\\.)*"|R"\(.*?\)"))+\s*$', re.S)
PLACE = '\0'


def without_comments(source):
    keep = re.compile(r'//[^\n]*|("(?:[^"\\\n]|\\.)*"|\'(?:[^\'\\\n]|\\.)+\')')
    return keep.sub(lambda match: match.group(1) or '', source)


def span(source, at):
    """Arguments of the bracket that opens at `at`, split at its own commas, and where it ends."""
    depth, begin, parts, i = 0, at + 1, [], at
    while i < len(source):
        char = source[i]
        if char == '"':
            i += 1
            while source[i] != '"':
                i += 2 if source[i] == '\\' else 1
        elif char == "'" and not source[i - 1].isalnum():
            i = source.index("'", i + (2 if source[i + 1] == '\\' else 1) + 1 - 0) \
                if source[i + 1] == '\\' else source.index("'", i + 1)
        elif char in OPENERS:
            depth += 1
        elif char in CLOSERS:
            depth -= 1
            if depth == 0:
                parts.append(source[begin:i])
                return [part.strip() for part in parts if part.strip()], i
        elif char == ',' and depth == 1:
            parts.append(source[begin:i])
            begin = i + 1
        i += 1
    return [], len(source)


def cut(expression, mark):
    """An expression at each `mark` that stands in no bracket and no text."""
    parts, depth, begin, i = [], 0, 0, 0
    while i < len(expression):
        char = expression[i]
        if char == '"':
            i += 1
            while expression[i] != '"':
                i += 2 if expression[i] == '\\' else 1
        elif char in OPENERS:
            depth += 1
        elif char in CLOSERS:
            depth -= 1
        elif depth == 0 and char == mark and expression[i - 1:i + 2].count(':') < 2:
            parts.append(expression[begin:i])
            begin = i + 1
        i += 1
    return [part.strip() for part in parts + [expression[begin:]]]


def literal(expression):
    raw = ''.join(re.findall(r'"((?:[^"\\]|\\.)*)"', expression))
    return raw.replace('\\"', '"').replace("\\'", "'").replace('\\\\', '\\')


def forms(expression, constants):
    """Every text that an expression can make, a \\0 for each thing put in."""
    expression = expression.strip()
    choice = cut(expression, '?')
    if len(choice) > 1:
        rest = expression[len(choice[0]):].lstrip()[1:]
        ways = cut(rest, ':')
        return forms(ways[0], constants) + forms(':'.join(ways[1:]), constants)
    joined = cut(expression, '+')
    if len(joined) > 1:
        options = [forms(part, constants) for part in joined]
        return [''.join(one) for one in itertools.product(*options)]
    if TEXT.fullmatch(expression):
        return [literal(expression)]
    if expression in constants:
        return forms(constants[expression], constants)
    call = re.match(r'(fmt::format|std::string)\(', expression)
    if call:
        parts, end = span(expression, call.end() - 1)
        if end == len(expression) - 1 and parts:
            if call.group(1) == 'std::string':
                return forms(parts[0], constants)
            if TEXT.fullmatch(parts[0]):
                text = literal(parts[0]).replace('{{', '\1').replace('}}', '\2')
                text = re.sub(r'\{[^{}]*\}', PLACE, text)
                return [text.replace('\1', '{').replace('\2', '}')]
    return [PLACE]


def numbered(form):
    count = itertools.count()
    return re.sub(PLACE, lambda _: '{%d}' % next(count), form)


def arguments(source):
    """(offset, what, mend) of every error that a source makes; mend may be ''."""
    seen = set()
    for match in re.finditer(r'ErrorCode::\w+', source):
        depth, i = 0, match.start() - 1
        while i >= 0:
            if source[i] in CLOSERS:
                depth += 1
            elif source[i] in OPENERS:
                if depth == 0:
                    break
                depth -= 1
            elif source[i] in ';' and depth == 0:
                i = -1
            i -= 1
        if i < 0 or i in seen:
            continue
        parts, _ = span(source, i)
        if len(parts) < 2 or 'ErrorCode::' not in parts[0]:
            continue
        name = re.search(r'(\w+)\s*$', source[:i])
        if name and name.group(1) in HELPERS:
            continue
        seen.add(i)
        yield i, parts[1]
        if len(parts) > 3:
            yield i, parts[3]
    for match in re.finditer(r'\b(\w+)(?:<[\w:]+>)?\(', source):
        if match.group(1) not in HELPERS:
            continue
        if re.search(r'(?:Error>|Reply|string|&\])\s*$', source[:match.start()]):
            continue  # its definition
        parts, _ = span(source, match.end() - 1)
        for index in HELPERS[match.group(1)]:
            if index < len(parts):
                yield match.start(), parts[index]


def of_file(path):
    """(line, sentence or None, expression) of a file; None: it cannot be told again."""
    source = without_comments(path.read_text())
    constants = {name: text for name, text in
                 re.findall(r'\b(k\w+)\s*=\s*((?:"(?:[^"\\]|\\.)*"\s*)+);', source)}
    for at, expression in arguments(source):
        expression = re.sub(r'\s+', ' ', expression) if '"' not in expression else expression
        line = source.count('\n', 0, at) + 1
        for form in forms(expression, constants):
            if PLACE == form:
                if expression not in HANDED_ON and not expression.startswith('suggestion('):
                    yield line, None, expression
            elif form:
                yield line, numbered(form), expression


def keys_of(path):
    """(line, what) of each key that a request must have: the hint says "add it: what"."""
    if ANSWERS.search(path.name) or path.parent.name not in ('wire', 'book'):
        return
    source = without_comments(path.read_text())
    for match in re.finditer(r'\brequired\(', source):
        parts, _ = span(source, match.end() - 1)
        if len(parts) == 2 and TEXT.fullmatch(parts[1]) and literal(parts[1]):
            yield source.count('\n', 0, match.start()) + 1, literal(parts[1])
