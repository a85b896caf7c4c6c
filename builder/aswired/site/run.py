"""Build and serve without an mkdocs.yml: the same plugin, with MkDocs told in code what the file would say."""

from __future__ import annotations

import datetime
import io
import logging
import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path

import yaml
from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import MkDocsException
from mkdocs.livereload import LiveReloadServer

from aswired.site.plugin import AswiredPlugin, cache_dir, keep_for
from aswired.site.stage import FIND_DATA, Order, Staged, Tell, stage
from aswired.site.theme import theme_dir

HOST = "127.0.0.1"


class NotPutTogether(Exception):
    """All was made, but it could not be moved into the site; the old site is still there."""


class NotOurs(Exception):
    """The folder to build into holds something else, or lies where it would destroy the jobs."""


def order_for(jobs_dir: Path, site_dir: Path, edition: str, job: str, *, serving: bool = False) -> Order:
    """An order for the command line; the shop's name is `site_name` of an mkdocs.yml beside the jobs, if there is one.

    Raises:
        NotOurs: `site_dir` must not be emptied.
    """
    jobs_dir, site_dir = jobs_dir.resolve(), site_dir.resolve()
    if site_dir.is_relative_to(jobs_dir) or jobs_dir.is_relative_to(site_dir):
        raise NotOurs(f"{site_dir} holds the jobs, or lies among them; a site is built into a folder of its own")
    cache = cache_dir(jobs_dir)
    keep = keep_for(cache, "serve" if serving else site_dir)
    if site_dir.exists() and not site_dir.is_dir():
        raise NotOurs(f"{site_dir} is a file, not a folder")
    if site_dir.is_dir() and any(site_dir.iterdir()) and not (site_dir / FIND_DATA).exists() and not keep.exists():
        raise NotOurs(f"{site_dir} holds files that are not a site of ours; name an empty folder, or one that is new")
    return Order(jobs_dir, site_dir, cache, keep, edition, job, shop_name(jobs_dir.parent))


def shop_name(folder: Path) -> str:
    """The name over all pages."""
    try:
        node = yaml.compose((folder / "mkdocs.yml").read_text(encoding="utf-8"), yaml.SafeLoader)
    except (OSError, UnicodeDecodeError, yaml.YAMLError):
        return "Jobs"
    pairs = node.value if isinstance(node, yaml.MappingNode) else []
    return next((str(value.value) for key, value in pairs if key.value == "site_name"), "Jobs")


def build(order: Order, tell: Tell) -> Staged:
    """Build the site, or give back why not; the site is touched only when there is no fault and no leak.

    Raises:
        NotPutTogether: the site's folder cannot be written, or something holds it.
    """
    staged = stage(order, datetime.date.today(), tell)
    if staged.good:
        put_together(order, staged)
    return staged


def put_together(order: Order, staged: Staged, serve_url: str | None = None) -> None:
    """Let MkDocs move what was staged into the site."""
    # What MkDocs has to say of its own work is of no use at the bench; its errors are raised.
    logging.getLogger("mkdocs").setLevel(logging.CRITICAL)
    plugin = AswiredPlugin(order, staged)
    try:
        mkdocs_build(_config(order, plugin), serve_url=serve_url)
    except MkDocsException as error:
        raise NotPutTogether(str(plugin.failure or error)) from error


def serve(jobs_dir: Path, port: int, tell: Callable[[Staged | Exception], None]) -> None:
    """Serve the shop's edition on this machine until interrupted, building again whenever a file changes.

    `tell` hears of each build, good or not; after one that is not, the pages stay as they were.

    Raises:
        OSError: the port is taken.
    """
    site_dir = Path(tempfile.mkdtemp(prefix="aswired-"))
    order = order_for(jobs_dir, site_dir, "shop", "", serving=True)

    def again() -> None:
        try:
            staged = stage(order, datetime.date.today())
            if staged.good:
                put_together(order, staged, f"http://{HOST}:{port}/")
            tell(staged)
        except Exception as error:  # an editor may be halfway through saving; the next save is seen again
            tell(error)

    order.keep.unlink(missing_ok=True)
    server = LiveReloadServer(builder=again, host=HOST, port=port, root=str(site_dir))
    try:
        again()
        for folder in (jobs_dir.resolve(), theme_dir()):
            server.watch(str(folder))
        try:
            server.serve()  # type: ignore[no-untyped-call]
        except KeyboardInterrupt:
            server.shutdown()
    finally:
        server.server_close()
        shutil.rmtree(site_dir, ignore_errors=True)


def _config(order: Order, plugin: AswiredPlugin) -> MkDocsConfig:
    theme = {"name": None, "custom_dir": str(theme_dir())}
    config = load_config(
        config_file=io.BytesIO(b"site_name: jobs\n"),
        docs_dir=str(order.jobs_dir), site_dir=str(order.site_dir), theme=theme, plugins=[], use_directory_urls=False,
    )  # fmt: skip
    plugin.load_config({})
    config.plugins["aswired"] = plugin
    return config
