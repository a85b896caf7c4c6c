"""The command line: what it prints, with which code it ends, and that a user's mistake is never a traceback."""

import json
import re
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

import pytest

import aswired
from aswired.checks.codes import all_codes, subjects, unjudged
from aswired.cli import run as cli
from aswired.cli.reference import reference
from aswired.files.skeleton import job_yml
from aswired.private import Leak
from aswired.site import run, serving
from aswired.site.telling import leak_texts
from aswired.text.schema import Located, keys_of

STANDS = """\
job: Van
changes:
  - {id: C1, kind: remove, wire: W1, was: "GN 18 AWG, F1 to lamp.1", ends: {F1: uncapped, lamp.1: gone},
     made: 2019-05-03 AK}
fuses:
  F1: {rating: 5 A, fed: always}
"""


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def write(here: Path, name: str, text: str) -> Path:
    path = here / "jobs" / name / "job.yml"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text)
    return path


def out(capsys: pytest.CaptureFixture[str]) -> str:
    captured = capsys.readouterr()
    text = captured.out + captured.err
    assert "Traceback" not in text
    return text


def test_new_check_build_from_an_empty_folder(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["new", "green-van"]) == 0
    assert cli.main(["check"]) == 0
    assert cli.main(["build"]) == 0
    text = out(capsys)
    assert "1 job made, 0 as before. Open site/index.html" in text
    assert "Green van" in (here / "site" / "index.html").read_text()
    assert not (here / "mkdocs.yml").exists()


def test_a_new_job_passes_check_without_any_finding(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    cli.main(["new", "green-van"])
    capsys.readouterr()
    assert cli.main(["check", "green-van"]) == 0
    assert not re.search(r"^(stop|error|warning) ", out(capsys), re.MULTILINE)


def test_check_tells_all_faults_in_file_order_then_their_count(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(here, "b", "job: B\nfoo: 1\nchanges:\n  - {id: C1, kind: extend, wire: W1, gap: 18}\n")
    write(here, "a", "job: A\nunits: yard\nchanges:\n  - {id: C1, kind: cap, wire: W1}\n")
    assert cli.main(["check"]) == 1
    text = out(capsys)
    heads = re.findall(r"^fault \S+ (\S+)", text, re.MULTILINE)
    assert heads == ["a/job.yml:2", "b/job.yml:2", "b/job.yml:4"]
    assert text.rstrip().endswith("3 file faults; nothing was written.")
    assert cli.main(["check", "b"]) == 1
    assert re.findall(r"^fault \S+ (\S+)", out(capsys), re.MULTILINE) == ["job.yml:2", "job.yml:4"]


def test_check_ends_with_3_while_something_stands_and_0_once_it_is_accepted(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = write(here, "van", STANDS)
    assert cli.main(["check"]) == 3
    text = out(capsys)
    found = set(re.findall(r"^(?:stop|error) ([A-Z]+\d+) \S+ \((\S+)\)", text, re.MULTILINE))
    assert found
    assert re.search(r"^Leave the power off\. ", text, re.MULTILINE)
    assert re.search(r"^Wires: \d+ of \d+ proved, \d+ against, \d+ let stand, \d+ not shown$", text, re.MULTILINE)
    assert re.search(r"^Fuses: ", text, re.MULTILINE)
    assert re.search(r"^may it be handed over\? +no: 1 stop open(;|$)", text, re.MULTILINE)
    assert text.rstrip().endswith("\nwhat stands against it? END01 C1-W1-F1")
    accepted = ", ".join(f"{{finding: {code}, of: {id}, by: AK, why: on the bench}}" for code, id in sorted(found))
    path.write_text(f"{STANDS}accepted: [{accepted}]\n")
    assert cli.main(["check"]) == 3  # a bare live end is nothing that anybody may let stand
    assert "ACC03" in out(capsys)
    path.write_text(f"{STANDS.replace('uncapped', 'taped')}accepted: [{accepted.replace('END01', 'END07')}]\n")
    assert cli.main(["check"]) == 0
    text = out(capsys)
    assert "accepted by AK: on the bench" in text
    assert "let stand by a named person: 1 error\n" in text
    assert re.search(r"^Wires: \d+ of \d+ proved, 0 against, 1 let stand, \d+ not shown$", text, re.MULTILINE)
    assert re.search(r"^may it be handed over\? +no stop and no error is open: 1 error let", text, re.MULTILINE)
    assert "what stands against it?" not in text


TWO_OPEN = """\
job: Van
wires:
  W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1}
  W2: {colour: GN, size: 1.0 mm2, from: F1, to: horn.1}
  W3: {colour: GN, size: 1.0 mm2, from: F1, to: bell.1}
changes:
  - {id: C1, kind: remove, wire: W1, ends: {F1: taped, lamp.1: gone}, made: 2019-05-03 AK}
  - {id: C2, kind: remove, wire: W2, ends: {F1: taped, horn.1: gone}, made: 2019-05-03 AK}
  - {id: C3, kind: remove, wire: W3, ends: {F1: taped, bell.1: gone}, made: 2019-05-03 AK,
     accepted: {finding: END07, by: JT, why: the car stands in the shop}}
fuses:
  F1: {rating: 5 A, fed: always}
"""


def test_findings_mended_alike_stand_under_one_heading_with_one_mend_line(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    write(here, "van", TWO_OPEN)
    assert cli.main(["check"]) == 3
    text = out(capsys)
    assert "error END07, 2 places" in text
    heading, rest = text.split("let stand by a named person: 1 error\n")
    assert re.findall(r"^  (job\.yml:\d+) \((\S+)\)  \S", heading, re.MULTILINE) == [
        ("job.yml:7", "C1-W1-F1"),
        ("job.yml:8", "C2-W2-F1"),
    ]
    assert heading.count("mend: Cap it") == rest.count("mend: Cap it") == 1
    assert "error END07 job.yml:9 (C3-W3-F1)" in rest  # accepted: apart, and still told with who and why
    assert "accepted by JT: the car stands in the shop" in rest
    assert "2 errors open; 1 error let stand by JT" in rest
    assert rest.rstrip().endswith("what stands against it? END07 C1-W1-F1, C2-W2-F1")


def test_build_ends_with_0_although_findings_stand(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(here, "van", STANDS)
    assert cli.main(["build"]) == 0


def test_build_ends_with_1_at_a_fault_and_writes_nothing(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(here, "van", STANDS + "nonsense: 1\n")
    assert cli.main(["build"]) == 1
    assert "nonsense" in out(capsys)
    assert not (here / "site").exists()


def test_build_ends_with_2_when_the_machine_fails(
    here: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    write(here, "van", STANDS)

    def fail(*_: object) -> None:
        raise OSError("no space left on device")

    monkeypatch.setattr(run, "build", fail)
    assert cli.main(["build"]) == 2
    assert "no space left on device" in out(capsys)


def test_a_build_that_is_broken_off_ends_with_2(
    here: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    write(here, "van", STANDS)

    def broken_off(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(run, "build", broken_off)
    assert cli.main(["build"]) == 2
    assert "Stopped before it was done." in out(capsys)
    monkeypatch.setattr(serving, "serve", broken_off)
    assert cli.main(["serve"]) == 0  # the way to end it


@pytest.mark.parametrize("port", ["0", "65536", "-1", "80.5", "eighty"])
def test_a_port_that_cannot_be_is_refused(here: Path, capsys: pytest.CaptureFixture[str], port: str) -> None:
    write(here, "van", STANDS)
    with pytest.raises(SystemExit) as ended:
        cli.main(["serve", f"--port={port}"])
    assert ended.value.code == 2
    assert f"'{port}' is not a number from 1 to 65535" in out(capsys)


def test_the_owners_edition_is_for_one_car(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for name in ("a", "b"):
        write(here, name, job_yml(name) + "\nprivate: {customer: Quentin Abernathy}\n")
    assert cli.main(["build", "--edition", "owner"]) == 1
    assert "--job" in out(capsys)
    assert cli.main(["build", "--edition", "owner", "--job", "a"]) == 0
    assert (here / "out" / "a-owner" / "jobs" / "a" / "index.html").exists()
    assert not (here / "out" / "a-owner" / "jobs" / "b").exists()


def test_a_private_value_in_the_owners_edition_ends_with_1_and_names_the_place(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = job_yml("a").replace("the lamp sits", "Quentin Abernathy says the lamp sits")
    write(here, "a", text + "\nprivate: {customer: Quentin Abernathy}\n")
    assert cli.main(["build", "--edition", "owner", "--job", "a", "--out", "given"]) == 1
    told = out(capsys)
    number = next(at for at, line in enumerate((here / "jobs/a/job.yml").read_text().splitlines(), 1) if "says" in line)
    assert re.search(
        rf"private PRV01 a/job\.yml:{number}\n  'Quentin Abernathy' \(private: customer\) would go out with the "
        r"owner's edition: jobs/a/\S+\.html:\d+ and \d+ more places?\n  mend: Take it out of this line",
        told,
    )
    assert told.count("PRV01") == 1  # once a value, however many pages say it
    assert "1 private value found" in told
    assert not (here / "given").exists()


def test_a_private_value_that_only_the_pages_say_themselves(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(here, "a", job_yml("a") + "\nprivate: {customer: Grounds}\n")
    assert cli.main(["build", "--edition", "owner", "--job", "a", "--out", "given"]) == 1
    told = out(capsys)
    assert re.search(r"private PRV01 jobs/a/\S+\.html:\d+\n  'Grounds' \(private: customer\)", told), told
    assert "no line of the job says it" in told
    assert "Write it longer under 'private:'" in told


def test_a_private_value_in_a_folder_or_a_name_is_told_where_it_is_written(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = job_yml("quill-hollow") + "\noffcuts: {Quillhollow: BU 18 AWG 2 m}\nprivate: {customer: Quill Hollow}\n"
    write(here, "quill-hollow", text)
    assert cli.main(["build", "--edition", "owner", "--job", "quill-hollow", "--out", "given"]) == 1
    told = out(capsys)
    lines = [at for at, line in enumerate(text.splitlines(), 1) if line.startswith(("job:", "offcuts:"))]
    places = "".join(f", quill-hollow/job.yml:{at}" for at in lines)
    assert len(lines) == 2
    assert f"private PRV01 the folder quill-hollow{places}\n" in told, told


def test_an_edition_that_is_taken_away_is_spoken_of(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    order = ["build", "--edition", "owner", "--job", "a", "--out", "given"]
    text = job_yml("a").replace("the lamp sits", "Quentin Abernathy says the lamp sits")
    path = write(here, "a", text)
    assert cli.main(order) == 0
    path.write_text(text + "\nprivate: {customer: Quentin Abernathy}\n")
    assert cli.main(order) == 1
    assert "taken away from given: it holds such a value too" in out(capsys)
    assert not (here / "given").exists()
    assert cli.main(order) == 1
    assert "taken away" not in out(capsys)  # there was none any more


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["check"], "aswired new"),
        (["check", "nope"], "no job 'nope'"),
        (["figures", "nope"], "no job 'nope'"),
        (["build", "--job", "nope"], "no job 'nope'"),
        (["new", "../x"], "cannot name a folder"),
        (["new", ""], "cannot name a folder"),
    ],
)
def test_a_slip_is_told_in_a_sentence_and_ends_with_1(
    here: Path, capsys: pytest.CaptureFixture[str], arguments: list[str], says: str
) -> None:
    assert cli.main(arguments) == 1
    assert says in out(capsys)


def test_building_over_other_files_is_refused(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(here, "van", STANDS)
    (here / "mine").mkdir()
    (here / "mine" / "letter.txt").write_text("dear")
    assert cli.main(["build", "--out", "mine"]) == 1
    assert "fault OUT01 mine\n  the folder holds files, and no site that was built here\n" in out(capsys)
    assert (here / "mine" / "letter.txt").exists()


def test_new_never_writes_over_a_job(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = write(here, "van", STANDS)
    assert cli.main(["new", "van"]) == 1
    assert path.read_text() == STANDS
    assert "jobs/van is there already. Take another name, or write on in it." in capsys.readouterr().err


def test_figures_as_json_keep_their_documented_keys(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(here, "van", job_yml("van"))
    assert cli.main(["figures", "van", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert set(told) == {"job", "view", "figures"}
    assert told["job"] == "van"
    keys = {"key", "name", "value", "unit", "rule", "formula", "inputs", "missing", "note"}
    assert all(set(figure) == keys for figure in told["figures"])
    inputs = [given for figure in told["figures"] for given in figure["inputs"]]
    assert all(set(given) == {"name", "value", "unit", "source", "write"} for given in inputs)
    cut = next(figure for figure in told["figures"] if figure["key"] == "C1-W1.cut")
    # 18 in + 50 + 10 + 10 = 527.2, up to the next 5: the worked length of the format's own text
    assert cut["value"] == pytest.approx(530)
    assert len({figure["key"] for figure in told["figures"]}) == len(told["figures"])


def test_figures_for_people_say_formula_and_inputs(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(here, "van", job_yml("van"))
    assert cli.main(["figures", "van"]) == 0
    text = out(capsys)
    assert re.search(r"^C1-W1\.cut: 530 mm .*e = gap \+ slack \+ o1 \+ o2", text, re.MULTILINE)


def test_blank_sheets_have_one_for_each_kind_with_each_of_its_keys(here: Path) -> None:
    from aswired.car.changes import KINDS

    assert cli.main(["sheets"]) == 0
    page = (here / "bench-sheets.html").read_text()
    parts = page.split("<section>")[1:]
    assert len(parts) == len(KINDS)
    for part, kind in zip(parts, KINDS, strict=True):
        assert f"<span>{kind.name}</span>" in part
        for key in kind.keys:
            assert re.search(rf'<th scope="row"[^>]*>{re.escape(key)}<small>', part), (kind.name, key)
    assert "//" not in page.replace("<!--", "")


def every_record(base: type[Located]) -> list[type[Located]]:
    return [record for own in base.__subclasses__() for record in (own, *every_record(own))]


def test_the_reference_tells_every_key_and_every_kind() -> None:
    from aswired.car.changes import KINDS

    text = reference()
    records = [record for record in every_record(Located) if record.__module__.startswith("aswired.")]
    assert len(records) > 20
    assert not {key for record in records for key in keys_of(record) if f"| `{key}` |" not in text}
    assert not {kind.name for kind in KINDS if f"### kind: {kind.name}\n" not in text}
    assert re.search(r"\| `shop note` \|.*\*Shop only\.\*", text)


def test_every_command_has_help_in_words(capsys: pytest.CaptureFixture[str]) -> None:
    for command in ("new", "check", "build", "serve", "figures", "sheets", "reference"):
        with pytest.raises(SystemExit) as ended:
            cli.main([command, "--help"])
        assert ended.value.code == 0
        text = capsys.readouterr().out
        assert not re.search(r"\b(JSON|YAML|stdout|directory|boolean|argument)\b", text.replace("--json", "")), text


# ---- serving --------------------------------------------------------------------------------------------------------
@pytest.mark.slow
def test_serve_shows_faults_and_keeps_the_last_good_pages(here: Path) -> None:
    path = write(here, "van", job_yml("van"))
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    command = [sys.executable, "-m", "aswired", "serve", "--port", str(port)]
    log = (here / "log").open("w")
    source = str(Path(aswired.__file__).parents[1])
    served = subprocess.Popen(command, cwd=here, stdout=log, stderr=log, env={"PYTHONPATH": source, "PATH": ""})

    def until(words: str, tries: int = 150) -> str:
        for _ in range(tries):
            try:
                with urllib.request.urlopen(f"http://127.0.0.1:{port}/index.html", timeout=5) as answer:
                    page = answer.read().decode()
                if words in page + (here / "log").read_text():
                    return page
            except (urllib.error.URLError, ConnectionError):
                pass
            time.sleep(0.2)
        raise AssertionError(f"'{words}' never came: " + (here / "log").read_text())

    try:
        until("<b class=")
        path.write_text(path.read_text().replace("gap: 18 in", "gap: 18"))
        page = until("1 file fault; the pages stay as they were")
        assert "Van" in page
        path.write_text(path.read_text().replace("gap: 18", "gap: 19 in").replace("job: Van", "job: Bright van"))
        assert "Bright van" in until("Bright van")
        assert "Traceback" not in (here / "log").read_text()
    finally:
        served.send_signal(signal.SIGINT)
        assert served.wait(20) == 0
        log.close()


@pytest.mark.slow
def test_serve_says_when_the_port_is_taken(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(here, "van", job_yml("van"))
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        assert cli.main(["serve", "--port", str(taken.getsockname()[1])]) == 2
    assert "--port" in out(capsys)


# ---- compare --------------------------------------------------------------------------------------------------------
def test_compare_says_what_differs_between_two_moments(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(here, "van", STANDS)
    assert cli.main(["compare", "van", "donor", "now"]) == 0
    text = out(capsys)
    assert text.startswith("donor to now: 1 wire")
    assert "  donor: F1 -- GN 18 AWG not recorded -- lamp.1 [not recorded]" in text
    assert "C1-W1-F1 (uncapped)" in text
    assert "  lamp.1: W1 -> empty" in text
    assert cli.main(["compare", "van", "now", "now"]) == 0
    assert out(capsys) == "now to now: nothing\n"


def test_compare_with_a_moment_the_job_has_not(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(here, "van", STANDS)
    assert cli.main(["compare", "van", "donor", "revision 1"]) == 1
    assert out(capsys).strip() == "The job has no view 'revision 1'. It has: donor, now, plan."


# ---- explain --------------------------------------------------------------------------------------------------------
def test_explain_says_what_a_code_means_and_what_to_write_instead(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["explain", "row08"]) == 0
    text = out(capsys)
    assert text.startswith("ROW08  error\nSealed or tested before it was made.\n")
    raises, does_not = text.split("\nRaises it:\n")[1].split("\nDoes not:\n")
    assert "tested: 2031-05-02 AK" in raises
    assert "tested: 2031-05-04 AK" in does_not
    assert "Why it matters: A test of a joint that did not exist proves nothing." in text


def test_explain_alone_lists_every_code_by_subject(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["explain"]) == 0
    text = out(capsys)
    listed = [line for line in text.splitlines() if line.startswith("  ")]
    for line, entry in zip(listed, all_codes(), strict=True):
        assert " ".join(line.split()) == f"{entry.code} {', '.join(entry.ranks)} {entry.says}"
    assert [title for title, _ in subjects()] == re.findall(r"^([A-Z][^:\n]+)$", text, re.MULTILINE)


def test_explain_a_code_held_to_a_limit_names_the_limit_and_its_source(capsys: pytest.CaptureFixture[str]) -> None:
    held = next(entry for entry in all_codes() if "rings per stud" in entry.limits)
    assert cli.main(["explain", held.code]) == 0
    assert "rings per stud: 4, most rings on one stud [AC 43.13-1B para 11-174; read]" in out(capsys)


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        (["ROW99"], "'ROW99' is no code. Did you mean ROW09?"),
        (["fil"], "'fil' is no code. Did you mean FIL01 or FIL02 or FIL03 or FIL04?"),
        (["???"], "'???' is no code. All of them: aswired explain"),
        (["ROW01", "van"], "Only limits differ from job to job: aswired explain limits van"),
        (["limits", "van"], "There is no job 'van': no file jobs/van/job.yml. Jobs here: none."),
    ],
)
def test_explain_of_what_there_is_not(
    asked: list[str], said: str, here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(["explain", *asked]) == 1
    assert out(capsys).strip() == said


def test_explain_limits_shows_what_the_shop_and_the_job_set(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(here, "van", STANDS + "limits: {joint stagger: 60 mm}\n")
    (here / "jobs" / "shop.yml").write_text("limits: {joint clear: 45 mm, joint stagger: 55 mm}\n")

    def line(key: str) -> str:
        (found,) = [row for row in out(capsys).splitlines() if row.startswith(f"{key}  ")]
        return " ".join(found.split())

    assert cli.main(["explain", "limits", "van"]) == 0
    assert line("joint clear").endswith("[shop.yml:1; set for this shop]")
    assert cli.main(["explain", "limits", "van"]) == 0
    assert line("joint stagger").startswith("joint stagger 60 mm between")
    assert cli.main(["explain", "limits"]) == 0
    assert line("joint stagger").startswith("joint stagger 55 mm between")
    assert cli.main(["explain", "limits"]) == 0
    assert line("rings per stud") == "rings per stud 4 most rings on one stud [AC 43.13-1B para 11-174; read]"


def test_explain_limits_with_a_fault_in_the_shops_file_ends_with_1(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    write(here, "van", STANDS)
    (here / "jobs" / "shop.yml").write_text("limits: {joint clear: 45}\n")
    assert cli.main(["explain", "limits"]) == 1
    assert "fault VAL04 shop.yml:1" in out(capsys)


def test_explain_not_judged_gives_each_thing_its_reason(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["explain", "not-judged"]) == 0
    text = " ".join(out(capsys).split())
    for item in unjudged():
        assert f"{item.what} {item.why}" in text


def test_a_private_value_on_many_lines_names_the_first_of_them() -> None:
    lines = [f"van/job.yml:{at}" for at in range(1, 8)]
    found = (Leak("customer", "Quentin Abernathy", "jobs/van/index.html", 4),)
    (told,) = leak_texts(found, {"customer": lines})
    assert told.splitlines()[0] == (
        "private PRV01 van/job.yml:1, van/job.yml:2, van/job.yml:3, van/job.yml:4, van/job.yml:5 and 2 more"
    )
    assert told.splitlines()[1].endswith("with the owner's edition: jobs/van/index.html:4")
    assert "longer" not in told


def test_of_a_single_word_it_is_said_that_a_longer_value_helps() -> None:
    """A surname such as Horn is a word of the trade: no line can do without it."""
    (told,) = leak_texts((Leak("customer", "Horn", "a.html", 4),), {"customer": ["van/job.yml:9"]})
    assert "mend: Take it out of this line; or write it longer under 'private:', first and last name; or" in told
