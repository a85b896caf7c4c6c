"""The MkDocs plugin: takes what `stage` made and lets it, and nothing else, into the site."""

from __future__ import annotations

import datetime
import hashlib
import logging
import os
import shutil
from pathlib import Path
from typing import Any, Literal

from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files, InclusionLevel

from aswired.editions import EDITIONS
from aswired.site.stage import KEPT, Order, Staged, finish, keep_last, put_back, stage
from aswired.site.theme import theme_dir
from aswired.telling import trouble_text

log = logging.getLogger("mkdocs.plugins.aswired")


class AswiredConfig(Config):  # type: ignore[no-untyped-call]  # MkDocs does not type what a subclass runs
    edition = config_options.Choice(EDITIONS, default="shop")
    job = config_options.Type(str, default="")


class FinishedFile(File):
    """A file of the site that is made already: moved into its place, or there since the last build."""

    def __init__(self, config: MkDocsConfig, uri: str, made: Path | None) -> None:
        super().__init__(uri, None, config.site_dir, config.use_directory_urls, inclusion=InclusionLevel.INCLUDED)
        self.generated_by = "aswired"
        self.made = made

    def copy_file(self, dirty: bool = False) -> None:
        if self.made is None:
            return
        target = Path(str(self.abs_dest_path))
        target.parent.mkdir(parents=True, exist_ok=True)
        try:
            os.replace(self.made, target)
        except OSError:  # another disk
            shutil.copy2(self.made, target)


class AswiredPlugin(BasePlugin[AswiredConfig]):  # type: ignore[no-untyped-call]  # as above
    """Builds the site of a folder of jobs. Nothing from the jobs folder is copied as it lies there."""

    def __init__(self, order: Order | None = None, staged: Staged | None = None) -> None:
        """`order` and `staged` are given by `run`, which tells faults itself; MkDocs alone gives neither."""
        self.order, self.staged = order, staged
        self.serving = False
        self.failure: Exception | None = None

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        self.serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        config.theme.static_templates = set()  # no site map: a site on a stick has no address
        if self.staged is None or self.serving:
            self.order = order_of(config, self.config.edition, self.config.job, self.serving)
            self.staged = self._stage(self.order)
        if self.order is not None and not self.serving:
            config.docs_dir = str(self.order.cache_dir / "no-pages")  # MkDocs walks through links that lead round
            Path(config.docs_dir).mkdir(parents=True, exist_ok=True)
        return config

    def _stage(self, order: Order) -> Staged:
        staged = stage(order, datetime.date.today())
        for notice in staged.notices:  # not as warnings: --strict would end a build that is meant to go on
            log.info(notice)
        if staged.good:
            return staged
        told = trouble_text(staged.faults, staged.leaks, staged.gone)
        if self.serving and order.keep.exists() and (order.site_dir / "index.html").exists():
            log.info("%s\nThe pages stay as they were.", told)
            return keep_last(order)
        raise PluginError(told)

    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        """Put the old site where the cleaning does not reach."""
        site = Path(config.site_dir)
        put_back(site)
        if not site.is_dir():
            return
        (site / KEPT).mkdir(exist_ok=True)
        try:
            for path in sorted(site.iterdir()):
                if path.name != KEPT:
                    path.rename(site / KEPT / path.name)
        except OSError as error:  # some systems do not let a folder move while a file in it is open
            put_back(site)
            raise PluginError(f"the old site is in use ({error}); close what has it open and build again") from None

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """The allow list: what was staged, and no file that lay about in a job folder."""
        put_back(Path(config.site_dir))
        if self.staged is None:
            raise PluginError("nothing was made for this site")
        made = [FinishedFile(config, uri, path) for uri, path in sorted(self.staged.moves.items())]
        return Files([*made, *(FinishedFile(config, uri, None) for uri in sorted(self.staged.kept))])

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        if self.order is not None and self.staged is not None and self.staged.manifest.mark:
            finish(self.order, self.staged)
        self._sweep()

    def on_build_error(self, *, error: Exception) -> None:
        self.failure = error
        if self.order is not None:
            put_back(self.order.site_dir)
        self._sweep()

    def on_serve(self, server: LiveReloadServer, *, config: MkDocsConfig, builder: Any) -> LiveReloadServer:
        server.watch(str(theme_dir()))
        return server

    def _sweep(self) -> None:
        if self.staged is not None and self.staged.folder is not None:
            shutil.rmtree(self.staged.folder, ignore_errors=True)


def order_of(config: MkDocsConfig, edition: str, job: str, serving: bool) -> Order:
    """The order that an mkdocs.yml gives."""
    jobs_dir, site_dir = Path(config.docs_dir), Path(config.site_dir)
    cache = cache_dir(jobs_dir)
    keep = keep_for(cache, "serve" if serving else site_dir)
    return Order(jobs_dir, site_dir, cache, keep, edition, job, config.site_name)


def cache_dir(jobs_dir: Path) -> Path:
    return jobs_dir.resolve().parent / ".cache" / "aswired"


def keep_for(cache: Path, site: Path | Literal["serve"]) -> Path:
    """Where the manifest of one site is kept: a served site lies in a new folder each time and shares one."""
    name = site if isinstance(site, str) else hashlib.sha256(str(site.resolve()).encode()).hexdigest()[:12]
    return cache / f"site-{name}.json"
