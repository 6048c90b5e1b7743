namespace Athwart.Catalogue;

/// <summary>The schema as numbered steps: step n brings a database from user_version n − 1 to n. A step once released never changes.</summary>
internal static class Migrations
{
    /// <summary>The version this program writes and the newest it understands.</summary>
    public static int Current => Steps.Count;

    public static IReadOnlyList<string> Steps { get; } =
        [Originals, Effects, Kit, RigProfiles, Treatments, Cuts, EffectWords, KitKeys, SwappedTakes, MadeUpSides, Markers];

    private const string Originals = """
        CREATE TABLE sessions (
            id TEXT PRIMARY KEY,
            name TEXT NOT NULL,
            date TEXT NOT NULL,
            folder TEXT NOT NULL COLLATE NOCASE UNIQUE,
            notes TEXT NOT NULL,
            mid_channel INTEGER,
            side_channel INTEGER,
            invert_side INTEGER,
            side_level REAL,
            UNIQUE (name, date)
        ) STRICT;
        CREATE TABLE files (
            id TEXT PRIMARY KEY,
            session_id TEXT NOT NULL REFERENCES sessions (id),
            library_path TEXT NOT NULL UNIQUE,
            card_path TEXT NOT NULL,
            length INTEGER NOT NULL CHECK (length >= 0),
            sha256 TEXT NOT NULL,
            modified TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('copying', 'verified', 'refused'))
        ) STRICT;
        CREATE INDEX files_by_content ON files (length, sha256);
        CREATE INDEX files_by_session ON files (session_id);
        CREATE TABLE takes (
            id TEXT PRIMARY KEY,
            session_id TEXT NOT NULL REFERENCES sessions (id),
            name TEXT NOT NULL,
            channel_count INTEGER NOT NULL,
            sample_rate_hertz INTEGER NOT NULL,
            format TEXT NOT NULL,
            frames INTEGER NOT NULL,
            join_kind TEXT NOT NULL,
            join_evidence TEXT NOT NULL,
            mid_channel INTEGER,
            side_channel INTEGER,
            invert_side INTEGER,
            role_evidence TEXT NOT NULL,
            UNIQUE (session_id, name)
        ) STRICT;
        CREATE TABLE take_parts (
            take_id TEXT NOT NULL REFERENCES takes (id) ON DELETE CASCADE,
            position INTEGER NOT NULL,
            file_id TEXT NOT NULL REFERENCES files (id),
            first_frame INTEGER NOT NULL,
            frames INTEGER NOT NULL,
            first_channel INTEGER NOT NULL,
            channel_count INTEGER NOT NULL,
            PRIMARY KEY (take_id, position)
        ) STRICT, WITHOUT ROWID;
        CREATE INDEX take_parts_by_file ON take_parts (file_id);
        CREATE TABLE findings (
            take_id TEXT NOT NULL REFERENCES takes (id) ON DELETE CASCADE,
            position INTEGER NOT NULL,
            kind TEXT NOT NULL,
            severity TEXT NOT NULL,
            json TEXT NOT NULL,
            PRIMARY KEY (take_id, position)
        ) STRICT, WITHOUT ROWID;
        CREATE TABLE measures (
            take_id TEXT PRIMARY KEY REFERENCES takes (id) ON DELETE CASCADE,
            version INTEGER NOT NULL,
            json TEXT NOT NULL
        ) STRICT, WITHOUT ROWID;
        """;

    private const string Effects = """
        CREATE TABLE effects (
            id TEXT PRIMARY KEY,
            take_id TEXT NOT NULL REFERENCES takes (id),
            name TEXT NOT NULL,
            from_frame INTEGER NOT NULL CHECK (from_frame >= 0),
            to_frame INTEGER NOT NULL CHECK (to_frame >= from_frame),
            fade_in_frames INTEGER NOT NULL,
            fade_out_frames INTEGER NOT NULL,
            side_level REAL,
            notes TEXT NOT NULL,
            tokens TEXT NOT NULL,
            UNIQUE (take_id, name)
        ) STRICT;
        CREATE TABLE effect_tags (
            effect_id TEXT NOT NULL REFERENCES effects (id) ON DELETE CASCADE,
            position INTEGER NOT NULL,
            tag TEXT NOT NULL,
            PRIMARY KEY (effect_id, position)
        ) STRICT, WITHOUT ROWID;
        CREATE TABLE deliveries (
            id TEXT PRIMARY KEY,
            session_id TEXT REFERENCES sessions (id),
            folder TEXT NOT NULL,
            date TEXT NOT NULL
        ) STRICT;
        CREATE TABLE delivered_effects (
            delivery_id TEXT NOT NULL REFERENCES deliveries (id) ON DELETE CASCADE,
            position INTEGER NOT NULL,
            effect_id TEXT REFERENCES effects (id) ON DELETE SET NULL,
            name TEXT NOT NULL,
            PRIMARY KEY (delivery_id, position)
        ) STRICT, WITHOUT ROWID;
        CREATE TABLE delivered_files (
            delivery_id TEXT NOT NULL,
            effect_position INTEGER NOT NULL,
            position INTEGER NOT NULL,
            kind TEXT NOT NULL,
            path TEXT NOT NULL,
            length INTEGER NOT NULL,
            sha256 TEXT NOT NULL,
            PRIMARY KEY (delivery_id, effect_position, position),
            FOREIGN KEY (delivery_id, effect_position) REFERENCES delivered_effects (delivery_id, position) ON DELETE CASCADE
        ) STRICT, WITHOUT ROWID;
        """;

    // Kinds and JSON are the jobs' own affair: the catalogue keeps them as they come.
    private const string Kit = """
        CREATE TABLE kit_items (
            kind TEXT NOT NULL,
            key TEXT NOT NULL,
            name TEXT NOT NULL,
            position INTEGER NOT NULL,
            version INTEGER NOT NULL,
            json TEXT NOT NULL,
            PRIMARY KEY (kind, key)
        ) STRICT, WITHOUT ROWID;
        """;

    // As with the kit, the JSON is the jobs' own affair.
    private const string RigProfiles = """
        CREATE TABLE rig_profiles (
            id TEXT PRIMARY KEY,
            rig TEXT NOT NULL COLLATE NOCASE,
            measured TEXT NOT NULL,
            version INTEGER NOT NULL,
            json TEXT NOT NULL
        ) STRICT;
        CREATE INDEX rig_profiles_by_rig ON rig_profiles (rig, measured);
        CREATE TABLE session_rigs (
            session_id TEXT PRIMARY KEY REFERENCES sessions (id) ON DELETE CASCADE,
            profile_id TEXT NOT NULL REFERENCES rig_profiles (id) ON DELETE CASCADE
        ) STRICT, WITHOUT ROWID;
        """;

    // A key is a name, or the id of a take or an effect. As with the kit, the JSON is the jobs' own affair.
    private const string Treatments = """
        CREATE TABLE treatments (
            scope TEXT NOT NULL CHECK (scope IN ('name', 'take', 'correction', 'effect')),
            key TEXT NOT NULL COLLATE NOCASE,
            json TEXT NOT NULL,
            PRIMARY KEY (scope, key)
        ) STRICT, WITHOUT ROWID;
        CREATE TABLE treatment_history (
            number INTEGER PRIMARY KEY AUTOINCREMENT,
            date TEXT NOT NULL,
            what TEXT NOT NULL,
            undone INTEGER NOT NULL DEFAULT 0
        ) STRICT;
        CREATE TABLE treatment_changes (
            number INTEGER NOT NULL REFERENCES treatment_history (number) ON DELETE CASCADE,
            position INTEGER NOT NULL,
            scope TEXT NOT NULL,
            key TEXT NOT NULL,
            before TEXT,
            after TEXT,
            PRIMARY KEY (number, position)
        ) STRICT, WITHOUT ROWID;
        CREATE TRIGGER treatments_go_with_effects AFTER DELETE ON effects BEGIN
            DELETE FROM treatments WHERE scope = 'effect' AND key = OLD.id;
        END;
        CREATE TRIGGER treatments_go_with_takes AFTER DELETE ON takes BEGIN
            DELETE FROM treatments WHERE scope IN ('take', 'correction') AND key = OLD.id;
        END;
        """;

    // Proposals are replaced whole when a take is looked at again; their JSON is the jobs' own affair.
    private const string Cuts = """
        ALTER TABLE effects ADD COLUMN fade_in_curve TEXT NOT NULL DEFAULT '';
        ALTER TABLE effects ADD COLUMN fade_out_curve TEXT NOT NULL DEFAULT '';
        ALTER TABLE effects ADD COLUMN loop_crossfade_frames INTEGER CHECK (loop_crossfade_frames > 0);
        ALTER TABLE effects ADD COLUMN loop_correlation REAL;
        CREATE TABLE cut_proposals (
            take_id TEXT NOT NULL REFERENCES takes (id) ON DELETE CASCADE,
            position INTEGER NOT NULL,
            version INTEGER NOT NULL,
            json TEXT NOT NULL,
            PRIMARY KEY (take_id, position)
        ) STRICT, WITHOUT ROWID;
        """;

    // Words by which effects are found. A number of its own for each effect, since the rows of effects have none that lasts;
    // triggers keep the words in step whoever writes. Prefixes of one to three letters are indexed for search as one types.
    private const string EffectWords = """
        CREATE INDEX delivered_effects_by_effect ON delivered_effects (effect_id);
        CREATE TABLE effect_numbers (number INTEGER PRIMARY KEY, effect_id TEXT NOT NULL UNIQUE) STRICT;
        CREATE VIRTUAL TABLE effect_words USING fts5(words, tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3');
        CREATE VIEW effect_texts AS
            SELECT n.number AS number, e.id AS effect_id, t.id AS take_id,
                e.name || ' ' || e.notes || ' ' || t.name || ' ' || s.name || ' '
                || coalesce((SELECT group_concat(g.tag, ' ') FROM effect_tags g WHERE g.effect_id = e.id), '') || ' '
                || coalesce((SELECT group_concat(j.value, ' ') FROM json_each(e.tokens) j), '') AS words
            FROM effect_numbers n JOIN effects e ON e.id = n.effect_id JOIN takes t ON t.id = e.take_id JOIN sessions s ON s.id = t.session_id;
        INSERT INTO effect_numbers (effect_id) SELECT id FROM effects ORDER BY rowid;
        INSERT INTO effect_words (rowid, words) SELECT number, words FROM effect_texts;
        CREATE TRIGGER effect_words_added AFTER INSERT ON effects BEGIN
            INSERT INTO effect_numbers (effect_id) VALUES (new.id);
            INSERT INTO effect_words (rowid, words) SELECT number, words FROM effect_texts WHERE effect_id = new.id;
        END;
        CREATE TRIGGER effect_words_changed AFTER UPDATE ON effects BEGIN
            UPDATE effect_words SET words = (SELECT words FROM effect_texts WHERE effect_id = new.id)
            WHERE rowid = (SELECT number FROM effect_numbers WHERE effect_id = new.id);
        END;
        CREATE TRIGGER effect_words_tagged AFTER INSERT ON effect_tags BEGIN
            UPDATE effect_words SET words = (SELECT words FROM effect_texts WHERE effect_id = new.effect_id)
            WHERE rowid = (SELECT number FROM effect_numbers WHERE effect_id = new.effect_id);
        END;
        CREATE TRIGGER effect_words_untagged AFTER DELETE ON effect_tags WHEN EXISTS (SELECT 1 FROM effects WHERE id = old.effect_id) BEGIN
            UPDATE effect_words SET words = (SELECT words FROM effect_texts WHERE effect_id = old.effect_id)
            WHERE rowid = (SELECT number FROM effect_numbers WHERE effect_id = old.effect_id);
        END;
        CREATE TRIGGER effect_words_removed AFTER DELETE ON effects BEGIN
            DELETE FROM effect_words WHERE rowid = (SELECT number FROM effect_numbers WHERE effect_id = old.id);
            DELETE FROM effect_numbers WHERE effect_id = old.id;
        END;
        CREATE TRIGGER effect_words_take_renamed AFTER UPDATE OF name ON takes WHEN old.name <> new.name BEGIN
            UPDATE effect_words SET words = (SELECT x.words FROM effect_texts x WHERE x.number = effect_words.rowid)
            WHERE rowid IN (SELECT n.number FROM effects e JOIN effect_numbers n ON n.effect_id = e.id WHERE e.take_id = new.id);
        END;
        """;

    // Step 3 once made this table without a key, and compared names by SQLite's letters a to z alone. Names that differ in the case
    // of another letter are one thing now; the first stays.
    private const string KitKeys = """
        CREATE TABLE kit_items_by_key (
            kind TEXT NOT NULL,
            key TEXT NOT NULL,
            name TEXT NOT NULL,
            position INTEGER NOT NULL,
            version INTEGER NOT NULL,
            json TEXT NOT NULL,
            PRIMARY KEY (kind, key)
        ) STRICT, WITHOUT ROWID;
        INSERT OR IGNORE INTO kit_items_by_key SELECT kind, name_key(name), name, position, version, json FROM kit_items ORDER BY kind, position;
        DROP TABLE kit_items;
        ALTER TABLE kit_items_by_key RENAME TO kit_items;
        """;

    // What roles were decided used to be kept as a sentence alone.
    private const string SwappedTakes = """
        ALTER TABLE takes ADD COLUMN is_swapped INTEGER NOT NULL DEFAULT 0;
        UPDATE takes SET is_swapped = coalesce(mid_channel = 2, role_evidence LIKE '%channel 2 %is mid%');
        """;

    private const string MadeUpSides = "ALTER TABLE delivered_effects ADD COLUMN side_made_up INTEGER NOT NULL DEFAULT 0;";

    // Markers of the recordist's own; those of the files stay in the files.
    private const string Markers = """
        CREATE TABLE markers (
            id TEXT PRIMARY KEY,
            take_id TEXT NOT NULL REFERENCES takes (id) ON DELETE CASCADE,
            frame INTEGER NOT NULL CHECK (frame >= 0),
            length INTEGER NOT NULL CHECK (length >= 0),
            label TEXT NOT NULL
        ) STRICT;
        CREATE INDEX markers_by_take ON markers (take_id, frame);
        """;
}
