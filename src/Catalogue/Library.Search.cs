using System.Globalization;
using System.Text;
using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <content>Search as one types.</content>
public sealed partial class Library
{
    private const int MostCounted = 1000;

    private const string FoundColumns = """
        t.name, t.sample_rate_hertz, s.id, s.name, s.date,
        (SELECT d.delivery_id FROM delivered_effects d JOIN deliveries v ON v.id = d.delivery_id WHERE d.effect_id = e.id ORDER BY v.date DESC LIMIT 1)
        """;

    /// <summary>
    /// The effects in whose name, notes, tags, tokens, take or session every word of the text begins a word; letter case and accents
    /// make no difference. An empty text finds all.
    /// </summary>
    /// <param name="text">Words with anything between them.</param>
    /// <param name="most">How many to give at the most, 1 or more.</param>
    public FoundEffects FindEffects(string text, int most)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        var words = SearchWords(text);
        // The newest first: by number the index gives them in that order without looking at the others.
        var source = words.Length > 0
            ? "(SELECT rowid AS number FROM effect_words WHERE effect_words MATCH $words ORDER BY rowid DESC LIMIT $most)"
            : "(SELECT number FROM effect_numbers ORDER BY number DESC LIMIT $most)";
        // One look into the index for both the page and the number: with words that are in every effect it is most of the work.
        var numbers = _database.Query($"SELECT number FROM {source}", static r => r.GetInt64(0), ("$words", words), ("$most", Math.Max(most, MostCounted)));
        var found = _database.Query(
            $"SELECT {EffectColumns}, {FoundColumns} FROM json_each($page) p JOIN effect_numbers n ON n.number = p.value JOIN effects e ON e.id = n.effect_id JOIN takes t ON t.id = e.take_id JOIN sessions s ON s.id = t.session_id ORDER BY n.number DESC",
            ReadFound,
            ("$page", "[" + string.Join(',', numbers.Take(most)) + "]"));
        var total = Math.Min(numbers.Count, Math.Max(MostCounted, found.Count));
        var tagged = WithTags([.. found.Select(f => f.Effect)]);
        return new([.. found.Zip(tagged, (f, e) => f with { Effect = e })], total, MostCounted);
    }

    /// <summary>Where the stereo file of each lies in the delivery that holds it last, by effect; those that were not delivered are left out.</summary>
    public Dictionary<EffectId, string> StereoFiles(IReadOnlyList<FoundEffect> effects)
    {
        ArgumentNullException.ThrowIfNull(effects);
        var files = new Dictionary<EffectId, string>();
        foreach (var found in effects.Where(e => e.Delivered is not null))
        {
            var path = _database.Query(
                "SELECT f.path FROM delivered_effects d JOIN delivered_files f ON f.delivery_id = d.delivery_id AND f.effect_position = d.position WHERE d.delivery_id = $delivery AND d.effect_id = $effect AND f.kind = 'stereo' LIMIT 1",
                static r => r.GetString(0),
                ("$delivery", found.Delivered!.Value.Value),
                ("$effect", found.Effect.Id.Value));
            if (path.Count > 0)
                files[found.Effect.Id] = path[0];
        }

        return files;
    }

    private static FoundEffect ReadFound(SqliteDataReader row) => new(
        ReadEffect(row),
        row.GetString(EffectColumnCount),
        row.GetInt32(EffectColumnCount + 1),
        new(row.GetString(EffectColumnCount + 2)),
        row.GetString(EffectColumnCount + 3),
        row.Date(EffectColumnCount + 4),
        row.OptionalText(EffectColumnCount + 5) is { } delivery ? new DeliveryId(delivery) : null);

    // Every word quoted, so that nothing in it can mean something to the index; the star makes it the beginning of a word.
    private static string SearchWords(string text)
    {
        var query = new StringBuilder();
        foreach (var word in text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
            var letters = string.Concat(word.Select(c => char.IsLetterOrDigit(c) || char.GetUnicodeCategory(c) is UnicodeCategory.NonSpacingMark or UnicodeCategory.SpacingCombiningMark ? c : ' ')).Trim();
            if (letters.Length > 0)
                query.Append(CultureInfo.InvariantCulture, $"\"{letters}\"* ");
        }

        return query.ToString().TrimEnd();
    }
}
