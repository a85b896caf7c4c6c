"""The MkDocs plugin: `mkdocs build` and `mkdocs serve` give the same site as `aswired build`, made by the same code.

MkDocs empties the folder it builds into, and walks through every folder of the jobs. So it is given empty ones of its
own, has nothing to do there, and the site itself is published by `publish`, which touches only what it wrote.
"""

from __future__ import annotations

import logging
from pathlib import Path
from typing import Any, Literal

from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import Files

from aswired.files import find_jobs
from aswired.private.editions import EDITIONS
from aswired.site.publish import START, CutShort
from aswired.site.run import build, order_for
from aswired.site.stage import BuildOrder
from aswired.site.telling import count, cut_short_text, left_text, not_made_text, trouble_text
from aswired.site.theme import theme_dir

log = logging.getLogger("mkdocs.plugins.aswired")


class AswiredConfig(Config):  # type: ignore[no-untyped-call]  # MkDocs does not type what a subclass runs
    edition = config_options.Choice(EDITIONS, default="shop")
    job = config_options.Type(str, default="")


class AswiredPlugin(BasePlugin[AswiredConfig]):  # type: ignore[no-untyped-call]  # as above
    """Builds the site of a folder of jobs. Nothing from the jobs folder is copied as it lies there."""

    def __init__(self) -> None:
        self.serving = False
        self.docs_dir = self.site_dir = ""

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        self.serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        config.theme.static_templates = set()  # no site map: a site on a stick has no address
        self.docs_dir, self.site_dir = config.docs_dir, config.site_dir
        order = order_for(Path(config.docs_dir), Path(config.site_dir), self.config.edition, self.config.job)
        if order.job and order.job not in {folder.name for folder in find_jobs(order.jobs_dir)}:
            raise PluginError(f"mkdocs.yml names the job '{order.job}', and there is none below {config.docs_dir}")
        self._build(order)
        pages, site = (order.cache_dir / "mkdocs" / name for name in ("pages", "site"))
        pages.mkdir(parents=True, exist_ok=True)
        config.docs_dir, config.site_dir = str(pages), str(site)
        return config

    def _build(self, order: BuildOrder) -> None:
        there = (order.site_dir / START).exists()
        waiting = "Another build of this folder is at work; this one comes after it."
        try:
            staged = build(order, waiting=lambda: log.info(waiting))
        except CutShort as error:
            raise PluginError(cut_short_text(error.reason, error.done, error.all)) from error
        except OSError as error:
            raise PluginError(not_made_text(error, order.shown if there else "")) from error
        left = [left_text(order.shown, staged.left)] if staged.good and staged.left else []
        for notice in (*staged.notices, *left):  # not as warnings: --strict would end a build that went on
            log.info(notice)
        if staged.good:
            log.info("%s made, the site is in %s", count(len(staged.made), "job"), order.shown)
            return
        told = trouble_text(staged.faults, staged.leaks, staged.written, staged.gone, staged.left)
        if not (self.serving and there):
            raise PluginError(told)
        log.info("%s\nThe pages stay as they were.", told)

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Nothing is left for MkDocs to do, above all not with the files that lie about in job folders."""
        return Files([])

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        # what a deployment takes, and what is watched
        config.docs_dir, config.site_dir = self.docs_dir, self.site_dir

    def on_serve(self, server: LiveReloadServer, *, config: MkDocsConfig, builder: Any) -> LiveReloadServer:
        server.watch(str(theme_dir()))
        return server
