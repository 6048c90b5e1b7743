using System.Globalization;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.CheckTakes;

/// <summary>Holds each take against the others it was checked with: one that differs from nearly all was perhaps not meant to.</summary>
/// <remarks>Thresholds are common practice, no source.</remarks>
internal static class SessionConsistency
{
    /// <summary>Fewer takes say nothing about what is usual.</summary>
    private const int FewestTakes = 4;

    /// <summary>So large a share has to agree before the rest is odd.</summary>
    private const double Majority = 0.75;

    /// <summary>A side this much stronger or weaker against the mid than usual is worth a word, in dB.</summary>
    private const double FarDecibels = 15;

    /// <summary>A quiet this much louder or softer than usual is worth a word, in dB.</summary>
    private const double FarLevelDecibels = 25;

    /// <summary>And so many times the usual spread of the session.</summary>
    private const double FarSpreads = 4;

    /// <summary>Adds what differs to the takes concerned.</summary>
    public static IReadOnlyList<TakeCheck> Mark(IReadOnlyList<TakeCheck> checks)
    {
        var pairs = checks.Where(c => c.Roles.SideChannel is not null && (c.RecordedDecodeOf is null || string.Equals(c.RecordedDecodeOf, c.Take.Name, StringComparison.Ordinal))).ToList();
        if (pairs.Count < FewestTakes)
            return checks;
        List<Finding> Odd(TakeCheck check) =>
        [
            .. ((Finding?[])
            [
                Differs(pairs, check, "sample rate", c => string.Create(CultureInfo.InvariantCulture, $"{c.Take.SampleRateHertz / 1000.0:0.###} kHz")),
                Differs(pairs, check, "word", c => Word(c.Take.Format)),
                Differs(pairs, check, "order of the channels", c => string.Create(CultureInfo.InvariantCulture, $"mid on channel {c.Roles.MidChannel + 1}, side on channel {c.Roles.SideChannel + 1}")),
                Differs(pairs, check, "polarity of the side", c => c.Roles.SideInverted ? "turned over" : "as recorded"),
                Differs(pairs, check, "rig", c => c.Rig?.Rig is { } rig ? $"'{rig}'" : "no profile"),
                SideLevel(pairs, check),
                MidLevel(pairs, check),
            ]).OfType<Finding>(),
        ];
        return [.. checks.Select(c => pairs.Contains(c) && Odd(c) is { Count: > 0 } odd ? c with { Findings = TakeChecker.InOrder([.. c.Findings, .. odd]) } : c)];
    }

    private static Finding? Differs(List<TakeCheck> all, TakeCheck check, string what, Func<TakeCheck, string> valueOf)
    {
        var (usual, count) = all.GroupBy(valueOf, StringComparer.Ordinal).Select(g => (g.Key, g.Count())).MaxBy(g => g.Item2);
        var mine = valueOf(check);
        if (string.Equals(mine, usual, StringComparison.Ordinal) || count < Majority * all.Count)
            return null;
        return new()
        {
            Kind = "differs-from-session",
            Severity = FindingSeverity.Note,
            Message = string.Create(CultureInfo.InvariantCulture, $"The {what} of this take is {mine}; {count} of the {all.Count} takes have {usual}."),
            Remedy = "Check that it was meant so; roles and polarity can be set with 'roles'.",
            Confidence = 0.6,
            Evidence = [.. all.GroupBy(valueOf, StringComparer.Ordinal).OrderByDescending(g => g.Count()).Select(g => new Evidence("takes with " + g.Key, g.Count(), "takes"))],
        };
    }

    private static Finding? SideLevel(List<TakeCheck> all, TakeCheck check) => Far(all, check, c => c.Measures.SideMinusMid.Value, FarDecibels) is not { } far ? null : new()
    {
        Kind = "side-unlike-session",
        Severity = FindingSeverity.Caution,
        Role = ChannelRole.Side,
        Confidence = 0.5,
        Size = far.Off,
        SizeUnit = "dB",
        Message = string.Create(CultureInfo.InvariantCulture, $"The side lies {Math.Abs(far.Off):0.0} dB {(far.Off < 0 ? "lower" : "higher")} against the mid than in the other takes ({new Decibels(far.Mine)} where {new Decibels(far.Median)} is usual): a gain was touched, a cable failed, or the sound was elsewhere."),
        Remedy = "Compare the side alone with that of another take.",
        Evidence = [new("side against mid", far.Mine, "dB"), new("median of the others", far.Median, "dB"), new("spread of the others", far.Spread, "dB")],
    };

    private static Finding? MidLevel(List<TakeCheck> all, TakeCheck check) => Far(all, check, c => c.Measures.Mid.NoiseFloor.Value, FarLevelDecibels) is not { } far ? null : new()
    {
        Kind = "level-unlike-session",
        Severity = FindingSeverity.Note,
        Role = ChannelRole.Mid,
        Confidence = 0.5,
        Size = far.Off,
        SizeUnit = "dB",
        Message = string.Create(CultureInfo.InvariantCulture, $"The quiet of the mid lies {Math.Abs(far.Off):0.0} dB {(far.Off < 0 ? "below" : "above")} that of the other takes ({far.Mine:0.0;−0.0} dBFS where {far.Median:0.0} dBFS is usual): another gain, or another place."),
        Remedy = "Nothing, if both gains were turned alike; else look at the side's level against the mid.",
        Evidence = [new("quiet of the mid", far.Mine, "dBFS"), new("median of the others", far.Median, "dBFS"), new("spread of the others", far.Spread, "dB")],
    };

    /// <summary>How far a take is from the middle of the others, if it is far in decibels and in spreads of the others.</summary>
    private static (double Mine, double Median, double Spread, double Off)? Far(List<TakeCheck> all, TakeCheck check, Func<TakeCheck, double> valueOf, double least)
    {
        var mine = valueOf(check);
        var others = all.Where(c => c != check).Select(valueOf).Where(double.IsFinite).Order().ToList();
        if (!double.IsFinite(mine) || others.Count < FewestTakes - 1)
            return null;
        var median = others[others.Count / 2];
        // 1.4826 makes the median deviation the standard deviation of a normal spread.
        var spread = 1.4826 * others.Select(o => Math.Abs(o - median)).Order().ElementAt(others.Count / 2);
        return Math.Abs(mine - median) < Math.Max(least, FarSpreads * spread) ? null : (mine, median, spread, mine - median);
    }

    private static string Word(SampleFormat format) => string.Create(CultureInfo.InvariantCulture, $"{format.ValidBits}-bit{(format.IsInteger ? "" : " float")}");
}
