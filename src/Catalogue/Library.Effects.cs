using System.Text.Json;
using Athwart.Quantities;
using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <content>Cuts and effects.</content>
public sealed partial class Library
{
    // How many columns the next line names: what a query adds of its own comes after them.
    private const int EffectColumnCount = 14;
    private const string EffectColumns = "e.id, e.take_id, e.name, e.from_frame, e.to_frame, e.fade_in_frames, e.fade_out_frames, e.side_level, e.notes, e.tokens, e.fade_in_curve, e.fade_out_curve, e.loop_crossfade_frames, e.loop_correlation";

    /// <summary>The effects cut from a take, in the order of the take.</summary>
    public IReadOnlyList<Effect> Effects(TakeId take) => WithTags(_database.Query(
        $"SELECT {EffectColumns} FROM effects e WHERE e.take_id = $take ORDER BY e.from_frame, e.name", ReadEffect, ("$take", take.Value)));

    /// <summary>The effects of a session, by take, in the order of the take.</summary>
    public IReadOnlyList<Effect> Effects(SessionId session) => WithTags(_database.Query(
        $"SELECT {EffectColumns} FROM effects e JOIN takes t ON t.id = e.take_id WHERE t.session_id = $session ORDER BY t.name, e.from_frame, e.name",
        ReadEffect,
        ("$session", session.Value)));

    /// <summary>The effect with this id, or null.</summary>
    public Effect? GetEffect(EffectId id) => WithTags(_database.Query($"SELECT {EffectColumns} FROM effects e WHERE e.id = $id", ReadEffect, ("$id", id.Value))).FirstOrDefault();

    /// <summary>The effects whose name, notes, tags, tokens or take hold this text; letters A to Z in either case.</summary>
    public IReadOnlyList<Effect> SearchEffects(string text)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(text);
        return WithTags(_database.Query(
            $"""
            SELECT {EffectColumns} FROM effects e JOIN takes t ON t.id = e.take_id
            WHERE e.name LIKE $text ESCAPE '\' OR e.notes LIKE $text ESCAPE '\' OR e.tokens LIKE $text ESCAPE '\' OR t.name LIKE $text ESCAPE '\'
                OR EXISTS (SELECT 1 FROM effect_tags g WHERE g.effect_id = e.id AND g.tag LIKE $text ESCAPE '\')
            ORDER BY e.name, e.id
            """,
            ReadEffect,
            ("$text", $"%{Rows.LikeLiteral(text)}%")));
    }

    /// <summary>Adds an effect, or replaces what is known of the effect with this id.</summary>
    /// <exception cref="LibraryException">Conflict: the take has another effect of this name, or there is no such take.</exception>
    public void SaveEffect(Effect effect)
    {
        ArgumentNullException.ThrowIfNull(effect);
        RequireName(effect.Name);
        _database.Write(() =>
        {
            if (Effects(effect.Take).FirstOrDefault(e => e.Name.Equals(effect.Name, StringComparison.Ordinal) && e.Id != effect.Id) is not null)
                throw Conflict($"The take has an effect '{effect.Name}' already.", "Choose another name.");
            _database.Execute(
                """
                INSERT INTO effects (id, take_id, name, from_frame, to_frame, fade_in_frames, fade_out_frames, side_level, notes, tokens,
                    fade_in_curve, fade_out_curve, loop_crossfade_frames, loop_correlation)
                VALUES ($id, $take, $name, $from, $to, $in, $out, $level, $notes, $tokens, $inCurve, $outCurve, $crossfade, $correlation)
                ON CONFLICT (id) DO UPDATE SET take_id = $take, name = $name, from_frame = $from, to_frame = $to,
                    fade_in_frames = $in, fade_out_frames = $out, side_level = $level, notes = $notes, tokens = $tokens,
                    fade_in_curve = $inCurve, fade_out_curve = $outCurve, loop_crossfade_frames = $crossfade, loop_correlation = $correlation
                """,
                EffectValues(effect));
            ReplaceTags(effect);
            return true;
        });
    }

    /// <summary>Removes an effect; deliveries that hold it keep their record.</summary>
    /// <returns>Whether it was there.</returns>
    public bool RemoveEffect(EffectId id) => _database.Write(() => _database.Execute("DELETE FROM effects WHERE id = $id", ("$id", id.Value))) > 0;

    private static (string, object?)[] EffectValues(Effect effect) =>
    [
        ("$id", effect.Id.Value),
        ("$take", effect.Take.Value),
        ("$name", effect.Name),
        ("$from", effect.Range.From.Value),
        ("$to", effect.Range.To.Value),
        ("$in", effect.FadeIn.Value),
        ("$out", effect.FadeOut.Value),
        ("$level", effect.SideLevel?.Value),
        ("$notes", effect.Notes),
        ("$tokens", JsonSerializer.Serialize(new Dictionary<string, string>(effect.Tokens, StringComparer.Ordinal), StoredJson.Default.DictionaryStringString)),
        ("$inCurve", effect.FadeInCurve),
        ("$outCurve", effect.FadeOutCurve),
        ("$crossfade", effect.Loop?.Crossfade.Value),
        ("$correlation", effect.Loop?.Correlation),
    ];

    private static Effect ReadEffect(SqliteDataReader row) => new()
    {
        Id = new(row.GetString(0)),
        Take = new(row.GetString(1)),
        Name = row.GetString(2),
        Range = FrameRange.FromFrames(row.GetInt64(3), row.GetInt64(4)),
        FadeIn = new(row.GetInt64(5)),
        FadeOut = new(row.GetInt64(6)),
        SideLevel = row.OptionalDouble(7) is { } level ? new Decibels(level) : null,
        Notes = row.GetString(8),
        Tokens = JsonSerializer.Deserialize(row.GetString(9), StoredJson.Default.DictionaryStringString) ?? [],
        FadeInCurve = row.GetString(10),
        FadeOutCurve = row.GetString(11),
        Loop = row.OptionalDouble(13) is { } correlation ? new(new(row.GetInt64(12)), correlation) : null,
    };

    private List<Effect> WithTags(List<Effect> effects) => effects.ConvertAll(effect => effect with
    {
        Tags = _database.Query("SELECT tag FROM effect_tags WHERE effect_id = $id ORDER BY position", static r => r.GetString(0), ("$id", effect.Id.Value)),
    });

    private void ReplaceTags(Effect effect)
    {
        _database.Execute("DELETE FROM effect_tags WHERE effect_id = $id", ("$id", effect.Id.Value));
        for (var position = 0; position < effect.Tags.Count; position++)
        {
            _database.Execute(
                "INSERT INTO effect_tags (effect_id, position, tag) VALUES ($id, $position, $tag)",
                ("$id", effect.Id.Value),
                ("$position", position),
                ("$tag", effect.Tags[position]));
        }
    }
}
