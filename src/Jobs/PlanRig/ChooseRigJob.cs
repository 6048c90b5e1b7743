using System.Globalization;
using Athwart.Jobs.CheckTakes;
using Athwart.Jobs.Storage;
using Athwart.Microphones.Choosing;
using Athwart.Microphones.Equipment;
using Athwart.Quantities;
using static System.FormattableString;

namespace Athwart.Jobs.PlanRig;

/// <summary>What a choice is made from and for.</summary>
public sealed record ChooseRigRequest
{
    /// <summary>The kit.</summary>
    public required Kit Kit { get; init; }

    /// <summary>The outing: subject, levels, threshold.</summary>
    public required Outing Outing { get; init; }

    /// <summary>Amount and currency, such as '900 EUR'; null for none.</summary>
    public string? Budget { get; init; }

    /// <summary>The coverage wanted; null for the one that suits the subject.</summary>
    public double? CoverageDegrees { get; init; }

    /// <summary>A side level for all pairs; null to search.</summary>
    public Decibels? SideLevel { get; init; }

    /// <summary>How far the quietest sound is to lie above the noise; null for the common margin.</summary>
    public double? QuietMarginDecibels { get; init; }

    /// <summary>The recorder; null to try each.</summary>
    public string? Recorder { get; init; }

    /// <summary>The protection; null for none.</summary>
    public string? Protection { get; init; }

    /// <summary>The most weight on the boom; null for any.</summary>
    public double? MostGrams { get; init; }

    /// <summary>The widest mono pickup; null for any.</summary>
    public double? MonoPickupDegrees { get; init; }

    /// <summary>The highest frequency to reach; null for any.</summary>
    public double? HighestHertz { get; init; }

    /// <summary>Whether the recorder must decode.</summary>
    public bool Monitoring { get; init; }

    /// <summary>What matters, such as 'noise,cost'; null for coverage, noise, cost.</summary>
    public string? Matters { get; init; }
}

/// <summary>Chooses a pair.</summary>
public static class ChooseRigJob
{
    /// <summary>Runs it.</summary>
    /// <exception cref="JobException">A name, the budget or a matter cannot be understood.</exception>
    public static ChoiceDocument Run(ChooseRigRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var wishes = Wishes(request);
        return ChoiceDocument.Of(PairSearch.Run(request.Kit, wishes), wishes, [.. Asked(wishes, request.Outing)]);
    }

    /// <summary>Writes a page with the places and the trade-offs drawn.</summary>
    /// <exception cref="JobException">The file is there already.</exception>
    public static void WritePage(string path, ChoiceDocument document, bool overwrite) => WholeFile.Write(path, ChoicePage.Write(document), overwrite);

    private static Wishes Wishes(ChooseRigRequest r) => new()
    {
        Budget = r.Budget is { } budget ? Budget(budget) : null,
        Coverage = Coverage(r),
        Threshold = r.Outing.Threshold,
        SideLevel = r.SideLevel,
        QuietestDecibels = r.Outing.QuietestDecibels,
        QuietMarginDecibels = r.QuietMarginDecibels ?? Athwart.Microphones.Choosing.Wishes.CommonQuietMarginDecibels,
        Loudest = r.Outing.Loudest,
        HeadroomDecibels = r.Outing.HeadroomDecibels,
        Protection = RigResolver.Named(r.Protection, r.Kit.Protections, p => p.Name, "wind protection"),
        MostGrams = r.MostGrams,
        MonoPickup = r.MonoPickupDegrees is { } pickup ? new(pickup) : null,
        Highest = r.HighestHertz is { } hertz ? new(hertz) : null,
        Monitoring = r.Monitoring,
        Recorder = RigResolver.Named(r.Recorder, r.Kit.Recorders, x => x.Name, "recorder")?.Name,
        Matters = r.Matters is { } matters ? Matters(matters) : new Wishes().Matters,
    };

    private static Degrees? Coverage(ChooseRigRequest r)
    {
        if (r.CoverageDegrees is { } degrees)
        {
            return degrees is > 0 and < 360 ? new(degrees)
                : throw new JobException(JobErrorKind.WrongUse, "A coverage lies above 0 and below 360 degrees.", "Write the full angle, such as 90.");
        }

        return r.Outing.Subject is { } subject ? new(subject.SuitingCoverageDegrees()) : null;
    }

    private static Price Budget(string text)
    {
        var words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words.Length == 2 && decimal.TryParse(words[0], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var amount) && words[1].Length == 3 && words[1].All(char.IsAsciiLetter))
            return new(amount, words[1].ToUpperInvariant());
        throw new JobException(JobErrorKind.WrongUse, $"'{text}' is no budget.", "Write amount and currency, such as \"900 EUR\"; prices in another currency are never converted.");
    }

    private static List<Matter> Matters(string text)
    {
        var matters = new List<Matter>();
        foreach (var word in text.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            matters.Add(Enum.GetValues<Matter>().Cast<Matter?>().FirstOrDefault(m => m.ToString()!.Equals(word, StringComparison.OrdinalIgnoreCase))
                ?? throw new JobException(JobErrorKind.WrongUse, $"'{word}' is nothing that can matter here.", "Write some of coverage, noise, cost and weight, the most important first."));
        }

        return matters.Count > 0 ? matters : throw new JobException(JobErrorKind.WrongUse, "Nothing matters.", "Write some of coverage, noise, cost and weight, the most important first.");
    }

    private static IEnumerable<string> Asked(Wishes w, Outing outing)
    {
        if (outing.Subject is not null && SubjectReport.Of(outing, null, _ => null) is { } subject)
            yield return Invariant($"a subject that {(outing.Path is null ? "is " : "")}{subject.What}, {subject.AngleDegrees:0}° as seen from there");
        if (w.Coverage is { } coverage)
            yield return Invariant($"a coverage of {coverage.Value:0}°, left and right {w.Threshold.Value:0.#} dB apart at its edges");
        if (w.Budget is { } budget)
            yield return $"at most {budget} for what is not owned";
        if (w.QuietestDecibels is { } quietest)
            yield return Invariant($"sounds down to {quietest:0.#} dB SPL, {w.QuietMarginDecibels:0.#} dB above the noise");
        if (w.Loudest is { } loudest)
            yield return Invariant($"sounds up to {outing.LoudestDecibels:0.#} dB SPL with peaks of {loudest.PeakDecibels:0.#} dB");
        if (w.Protection is { } protection)
            yield return $"both in {protection.Name}";
        if (w.MostGrams is { } grams)
            yield return Invariant($"at most {grams:0} g on the boom");
        if (w.MonoPickup is { } pickup)
            yield return Invariant($"a mono pickup of at most {pickup.Value:0}°");
        if (w.Highest is { } highest)
            yield return Invariant($"a reach up to {highest.Value / 1000:0.#} kHz");
        if (w.Monitoring)
            yield return "a recorder that decodes for the headphones";
        yield return "what matters, the most first: " + string.Join(", ", w.Matters.Distinct().Select(m => JsonNumber.Word(m.ToString())));
    }
}
