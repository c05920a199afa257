-- The register on disk, first edition. docs/schema.md explains it.
-- Columns are the keys of the exchange document, in its order; lists and objects are JSON texts.
-- A released migration is never edited.

-- Every id of the archive, so that no two records of any kind share one. `changed` is the journal
-- entry that last touched the record; `number` is its row in the search index.
CREATE TABLE record (
    number INTEGER PRIMARY KEY,
    id TEXT NOT NULL UNIQUE CHECK (id <> ''),
    kind TEXT NOT NULL
        CHECK (kind IN ('person', 'state', 'enquiry', 'source', 'file', 'mark', 'frame',
            'dimension', 'particular', 'reading', 'shared error', 'relation', 'ruling', 'departure',
            'slip', 'as built', 'query', 'sign-off', 'lowered grade', 'acknowledgement',
            'issued report')),
    changed INTEGER NOT NULL REFERENCES journal (sequence) DEFERRABLE INITIALLY DEFERRED
) STRICT;

-- What was done, by whom and when; each entry holds the hash of the one before.
CREATE TABLE journal (
    sequence INTEGER PRIMARY KEY CHECK (sequence >= 1),
    at TEXT NOT NULL,
    by TEXT NOT NULL,
    name TEXT NOT NULL,
    what TEXT NOT NULL,
    changes TEXT NOT NULL CHECK (json_valid(changes)),
    previous TEXT NOT NULL CHECK (length(previous) = 64),
    hash TEXT NOT NULL CHECK (length(hash) = 64)
) STRICT;

CREATE TRIGGER journal_keeps_entries BEFORE DELETE ON journal BEGIN
    SELECT RAISE(ABORT, 'the journal is append-only');
END;

CREATE TRIGGER journal_keeps_words BEFORE UPDATE ON journal BEGIN
    SELECT RAISE(ABORT, 'the journal is append-only');
END;

-- One row per record: all its texts. Written by the program, never by a trigger.
CREATE VIRTUAL TABLE search USING fts5 (body, tokenize = 'unicode61 remove_diacritics 2');

CREATE TABLE "archive" (
    position INTEGER PRIMARY KEY CHECK (position = 1),
    "title" TEXT NOT NULL,
    "subject" TEXT,
    "statement" TEXT CHECK (json_valid("statement")),
    "display_unit" TEXT CHECK ("display_unit" IN ('in', 'mm', 'cm')),
    "smallest_fraction" INTEGER,
    "workmanship" REAL,
    "settings" TEXT CHECK (json_valid("settings"))
) STRICT;

CREATE TABLE "people" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "name" TEXT NOT NULL,
    "role" TEXT CHECK ("role" IN ('compiler', 'draughtsman', 'builder', 'reviewer', 'archivist')),
    "contact" TEXT
) STRICT;

CREATE TABLE "states" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "label" TEXT NOT NULL,
    "from" TEXT,
    "to" TEXT
) STRICT;

CREATE TABLE "enquiries" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "asked" TEXT NOT NULL,
    "by" TEXT NOT NULL REFERENCES "people" (id) DEFERRABLE INITIALLY DEFERRED,
    "on" TEXT NOT NULL,
    "text" TEXT,
    "reference" TEXT,
    "due" TEXT,
    "answer" TEXT,
    "answered_on" TEXT,
    "sources" TEXT CHECK (json_valid("sources"))
) STRICT;

CREATE TABLE "sources" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "code" TEXT,
    "title" TEXT NOT NULL,
    "kind" TEXT NOT NULL
        CHECK ("kind" IN ('drawing', 'photograph', 'text', 'part', 'testimony', 'rebuild',
            'standard')),
    "authority" TEXT CHECK ("authority" IN ('maker', 'eyewitness', 'later', 'modern')),
    "standing" TEXT CHECK ("standing" IN ('proposal', 'issued', 'as-built', 'altered', 'unknown')),
    "creator" TEXT,
    "date" TEXT,
    "date_text" TEXT,
    "holder" TEXT,
    "call_number" TEXT,
    "rights" TEXT,
    "may_print" INTEGER CHECK ("may_print" IN (0, 1)),
    "medium" TEXT,
    "original_size" TEXT CHECK (json_valid("original_size")),
    "figured_to" REAL,
    "first_hand" INTEGER CHECK ("first_hand" IN (0, 1)),
    "mirrored" INTEGER CHECK ("mirrored" IN (0, 1)),
    "condition" TEXT,
    "location" TEXT,
    "kept_how" TEXT,
    "set_aside" TEXT,
    "had_our_data" INTEGER CHECK ("had_our_data" IN (0, 1)),
    "states" TEXT CHECK (json_valid("states")),
    "replaces" TEXT REFERENCES "sources" (id) DEFERRABLE INITIALLY DEFERRED,
    "descends" TEXT CHECK (json_valid("descends")),
    "notes" TEXT,
    "files" TEXT CHECK (json_valid("files"))
) STRICT;

CREATE TABLE "marks" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "file" TEXT NOT NULL REFERENCES "record" (id) DEFERRABLE INITIALLY DEFERRED,
    "page" INTEGER,
    "kind" TEXT NOT NULL
        CHECK ("kind" IN ('point', 'segment', 'line', 'circle', 'ellipse', 'curve', 'pattern')),
    "points" TEXT CHECK (json_valid("points")),
    "u_px" REAL,
    "covariance" TEXT CHECK (json_valid("covariance")),
    "made" TEXT CHECK ("made" IN ('picked', 'edge', 'line-centre', 'corner')),
    "fit" TEXT CHECK (json_valid("fit")),
    "seen" TEXT CHECK (json_valid("seen")),
    "repeats" TEXT CHECK (json_valid("repeats")),
    "set_aside" TEXT,
    "note" TEXT
) STRICT;

CREATE TABLE "frames" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "file" TEXT NOT NULL REFERENCES "record" (id) DEFERRABLE INITIALLY DEFERRED,
    "page" INTEGER,
    "model" TEXT NOT NULL
        CHECK ("model" IN ('uniform', 'stretch', 'printed', 'plane', 'line', 'upright', 'camera')),
    "region" TEXT CHECK (json_valid("region")),
    "references" TEXT CHECK (json_valid("references")),
    "points" TEXT CHECK (json_valid("points")),
    "print" TEXT CHECK (json_valid("print")),
    "straight" TEXT CHECK (json_valid("straight")),
    "parallel" TEXT CHECK (json_valid("parallel")),
    "square" TEXT CHECK (json_valid("square")),
    "ground" TEXT CHECK (json_valid("ground")),
    "vertical" TEXT CHECK (json_valid("vertical")),
    "parallel_within" REAL,
    "principal_point" TEXT CHECK (json_valid("principal_point")),
    "set_aside" TEXT
) STRICT;

CREATE TABLE "dimensions" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "code" TEXT,
    "name" TEXT NOT NULL,
    "component" TEXT,
    "quantity" TEXT NOT NULL
        CHECK ("quantity" IN ('length', 'diameter', 'radius', 'angle', 'area', 'volume', 'mass',
            'count', 'ratio')),
    "unit" TEXT,
    "tolerance" REAL,
    "critical" INTEGER CHECK ("critical" IN (0, 1)),
    "state" TEXT REFERENCES "states" (id) DEFERRABLE INITIALLY DEFERRED,
    "set_aside" TEXT,
    "note" TEXT
) STRICT;

CREATE TABLE "particulars" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "code" TEXT,
    "name" TEXT NOT NULL,
    "component" TEXT,
    "kind" TEXT
        CHECK ("kind" IN ('presence', 'count', 'material', 'fastener', 'finish', 'process',
            'other')),
    "state" TEXT REFERENCES "states" (id) DEFERRABLE INITIALLY DEFERRED,
    "set_aside" TEXT,
    "note" TEXT
) STRICT;

CREATE TABLE "readings" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "of" TEXT NOT NULL REFERENCES "record" (id) DEFERRABLE INITIALLY DEFERRED,
    "basis" TEXT NOT NULL
        CHECK ("basis" IN ('scaled', 'figured', 'stated', 'gauged', 'told', 'analogous',
            'interpolated', 'inferred', 'limit', 'guessed', 'measured', 'symmetry', 'trade-rule',
            'assumed', 'geometry')),
    "source" TEXT REFERENCES "sources" (id) DEFERRABLE INITIALLY DEFERRED,
    "value" TEXT CHECK (json_valid("value")),
    "low" TEXT CHECK (json_valid("low")),
    "high" TEXT CHECK (json_valid("high")),
    "unit" TEXT,
    "u" REAL,
    "half_width" REAL,
    "shape" TEXT CHECK ("shape" IN ('rectangular', 'triangular', 'normal95')),
    "rounded_to" REAL,
    "mark" TEXT REFERENCES "marks" (id) DEFERRABLE INITIALLY DEFERRED,
    "between" TEXT CHECK (json_valid("between")),
    "frame" TEXT REFERENCES "frames" (id) DEFERRABLE INITIALLY DEFERRED,
    "off_plane" TEXT CHECK (json_valid("off_plane")),
    "plane" TEXT CHECK (json_valid("plane")),
    "corrections" TEXT CHECK (json_valid("corrections")),
    "feature" TEXT CHECK ("feature" IN ('original', 'altered', 'uncertain')),
    "article" TEXT,
    "instrument" TEXT,
    "dof" INTEGER,
    "table_row" TEXT,
    "states" TEXT CHECK (json_valid("states")),
    "excerpt" TEXT,
    "at" TEXT CHECK (json_valid("at")),
    "reason" TEXT,
    "floor_reason" TEXT,
    "by" TEXT REFERENCES "people" (id) DEFERRABLE INITIALLY DEFERRED,
    "on" TEXT,
    "set_aside" TEXT,
    "depends_on" TEXT CHECK (json_valid("depends_on"))
) STRICT;

CREATE TABLE "shared_errors" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "label" TEXT NOT NULL,
    "kind" TEXT NOT NULL CHECK ("kind" IN ('relative', 'absolute')),
    "u" REAL NOT NULL,
    "basis" TEXT
        CHECK ("basis" IN ('scaled', 'figured', 'stated', 'gauged', 'told', 'analogous',
            'interpolated', 'inferred', 'limit', 'guessed', 'measured', 'symmetry', 'trade-rule',
            'assumed', 'geometry')),
    "source" TEXT REFERENCES "sources" (id) DEFERRABLE INITIALLY DEFERRED,
    "on" TEXT CHECK (json_valid("on")),
    "set_aside" TEXT
) STRICT;

CREATE TABLE "relations" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "formula" TEXT NOT NULL,
    "u" REAL,
    "basis" TEXT
        CHECK ("basis" IN ('scaled', 'figured', 'stated', 'gauged', 'told', 'analogous',
            'interpolated', 'inferred', 'limit', 'guessed', 'measured', 'symmetry', 'trade-rule',
            'assumed', 'geometry')),
    "source" TEXT REFERENCES "sources" (id) DEFERRABLE INITIALLY DEFERRED,
    "reason" TEXT,
    "use" TEXT CHECK (json_valid("use")),
    "set_aside" TEXT
) STRICT;

CREATE TABLE "rulings" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "on" TEXT NOT NULL REFERENCES "record" (id) DEFERRABLE INITIALLY DEFERRED,
    "value" TEXT NOT NULL CHECK (json_valid("value")),
    "unit" TEXT,
    "reason" TEXT NOT NULL,
    "by" TEXT NOT NULL REFERENCES "people" (id) DEFERRABLE INITIALLY DEFERRED,
    "at" TEXT NOT NULL,
    "alternatives" TEXT CHECK (json_valid("alternatives")),
    "tolerance" REAL,
    "supersedes" TEXT REFERENCES "rulings" (id) DEFERRABLE INITIALLY DEFERRED,
    "evidence" TEXT CHECK (json_valid("evidence"))
) STRICT;

CREATE TABLE "departures" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "on" TEXT NOT NULL REFERENCES "record" (id) DEFERRABLE INITIALLY DEFERRED,
    "from" TEXT CHECK (json_valid("from")),
    "to" TEXT NOT NULL CHECK (json_valid("to")),
    "unit" TEXT,
    "why" TEXT NOT NULL
        CHECK ("why" IN ('safety', 'law', 'crew', 'material', 'cost', 'durability', 'access',
            'other')),
    "reason" TEXT NOT NULL,
    "by" TEXT REFERENCES "people" (id) DEFERRABLE INITIALLY DEFERRED,
    "at" TEXT,
    "rule" TEXT,
    "authority" TEXT,
    "approvals" TEXT CHECK (json_valid("approvals")),
    "effect" TEXT,
    "reversible" INTEGER CHECK ("reversible" IN (0, 1)),
    "affects" TEXT CHECK (json_valid("affects"))
) STRICT;

CREATE TABLE "slips" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "on" TEXT NOT NULL REFERENCES "record" (id) DEFERRABLE INITIALLY DEFERRED,
    "value" TEXT NOT NULL CHECK (json_valid("value")),
    "unit" TEXT,
    "tolerance" REAL,
    "by" TEXT NOT NULL REFERENCES "people" (id) DEFERRABLE INITIALLY DEFERRED,
    "at" TEXT NOT NULL,
    "allowed_by" TEXT REFERENCES "people" (id) DEFERRABLE INITIALLY DEFERRED,
    "note" TEXT,
    "grade" TEXT CHECK ("grade" IN ('H', 'F', 'T', 'B', 'C', 'O', '-'))
) STRICT;

CREATE TABLE "as_built" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "on" TEXT NOT NULL REFERENCES "record" (id) DEFERRABLE INITIALLY DEFERRED,
    "value" TEXT NOT NULL CHECK (json_valid("value")),
    "unit" TEXT,
    "u" REAL,
    "by" TEXT NOT NULL REFERENCES "people" (id) DEFERRABLE INITIALLY DEFERRED,
    "at" TEXT NOT NULL,
    "note" TEXT
) STRICT;

CREATE TABLE "queries" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "on" TEXT NOT NULL REFERENCES "record" (id) DEFERRABLE INITIALLY DEFERRED,
    "by" TEXT NOT NULL REFERENCES "people" (id) DEFERRABLE INITIALLY DEFERRED,
    "text" TEXT NOT NULL,
    "answers" TEXT CHECK (json_valid("answers")),
    "at" TEXT,
    "state" TEXT CHECK ("state" IN ('open', 'answered', 'settled')),
    "closed" TEXT
) STRICT;

CREATE TABLE "signoffs" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "on" TEXT NOT NULL REFERENCES "record" (id) DEFERRABLE INITIALLY DEFERRED,
    "by" TEXT NOT NULL REFERENCES "people" (id) DEFERRABLE INITIALLY DEFERRED,
    "at" TEXT NOT NULL,
    "verdict" TEXT CHECK ("verdict" IN ('seen', 'contested')),
    "text" TEXT,
    "grade" TEXT CHECK ("grade" IN ('H', 'F', 'T', 'B', 'C', 'O', '-')),
    "digest" TEXT
) STRICT;

CREATE TABLE "lowered" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "on" TEXT NOT NULL REFERENCES "record" (id) DEFERRABLE INITIALLY DEFERRED,
    "grade" TEXT NOT NULL CHECK ("grade" IN ('H', 'F', 'T', 'B', 'C', 'O', '-')),
    "reason" TEXT NOT NULL,
    "by" TEXT NOT NULL REFERENCES "people" (id) DEFERRABLE INITIALLY DEFERRED,
    "at" TEXT NOT NULL
) STRICT;

CREATE TABLE "acknowledgements" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "finding" TEXT NOT NULL CHECK (json_valid("finding")),
    "reason" TEXT NOT NULL,
    "by" TEXT NOT NULL REFERENCES "people" (id) DEFERRABLE INITIALLY DEFERRED,
    "at" TEXT NOT NULL,
    "digest" TEXT
) STRICT;

CREATE TABLE "issued" (
    position INTEGER PRIMARY KEY,
    "id" TEXT NOT NULL UNIQUE REFERENCES record (id) DEFERRABLE INITIALLY DEFERRED,
    "kind" TEXT NOT NULL,
    "at" TEXT NOT NULL,
    "sha256" TEXT NOT NULL,
    "filter" TEXT CHECK (json_valid("filter")),
    "register_digest" TEXT
) STRICT;
