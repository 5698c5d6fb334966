"""The browser's standard library, without what no page can use, in a zip that is not packed.

The host or the service worker compresses it better as a whole, and the start need not unpack it.
"""

import io
import re
import zipfile
from collections.abc import Mapping

INSIDE = "/lib/python314.zip/"  # where the runtime mounts it

# Tools of a programmer, a server or a terminal, other systems' halves, and the text encodings that
# no file here comes in.
UNUSED = re.compile(
    r"^(unittest|_pyrepl|xmlrpc|wsgiref|multiprocessing|sqlite3|lib2to3|ensurepip|venv|idlelib"
    r"|tkinter|turtledemo|curses|dbm|pydoc_data|xml/(dom|etree|parsers)|ctypes|tomllib|__phello__)/"
    r"|^(pdb|bdb|doctest|pydoc|mailbox|imaplib|smtplib|poplib|ftplib|netrc|nntplib|cmd|code"
    r"|trace|pstats|profile|cProfile|timeit|pickletools|modulefinder|tabnanny|pyclbr|py_compile"
    r"|compileall|zipapp|rlcompleter|getpass|pty|tty|webbrowser|this|antigravity|__hello__|turtle"
    r"|optparse|argparse|getopt|gettext|configparser|shlex|plistlib|wave|fileinput|filecmp|shelve"
    r"|sched|symtable|tarfile|tracemalloc|_ast_unparse|_pyio"
    r"|_pydatetime|_pydecimal|nturl2path|socketserver|sre_\w+|_py_abc|graphlib"
    r")\.py$"
    r"|^(http/(server|cookiejar|cookies)|urllib/robotparser"
    r"|logging/(handlers|config)|html/parser|email/(_header_value_parser|headerregistry"
    r"|contentmanager|policy)|asyncio/(__main__|tools|proactor_events|windows_\w+)"
    r"|concurrent/futures/process|pyodide/(console|_nodesock_transport|http/pyxhr))\.py$"
    r"|^encodings/(?!(__init__|aliases|ascii|latin_1|utf_8|utf_8_sig|utf_16|utf_16_le|utf_16_be"
    r"|utf_32|utf_32_le|utf_32_be|idna|punycode|cp437|cp1252|unicode_escape|raw_unicode_escape"
    r"|undefined|charmap|_\w+)\.py$)"
)


def sources(library: bytes) -> dict[str, bytes]:
    """Files of the library that ship."""
    with zipfile.ZipFile(io.BytesIO(library)) as archive:
        names = [name for name in archive.namelist() if not name.endswith("/")]
        return {name: archive.read(name) for name in names if not UNUSED.search(name)}


def stored(files: Mapping[str, bytes]) -> bytes:
    """A zip with these files as they are: the same bytes each time."""
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_STORED) as archive:
        for name in sorted(files):
            archive.writestr(zipfile.ZipInfo(name), files[name])
    return made.getvalue()
