using System.Globalization;
using Athwart.Figures;
using Athwart.Quantities;

namespace Athwart.Jobs.Deliver.Report;

/// <summary>Numbers as sentences.</summary>
public static class ReportWords
{
    /// <summary>How side levels and signs are meant in everything we deliver.</summary>
    public static IReadOnlyList<string> Conventions { get; } =
    [
        "Left is mid plus side, right is mid minus side, with the mid at unity and the side at the side level given.",
        "The positive lobe of the side points left.",
        "Left and right added and halved give the mid back, whatever the side level: the mono fold is the mid microphone.",
        "The raw mid/side pair lies beside each stereo file, so the width can be chosen again at any time.",
    ];

    /// <summary>What a side level does to a sound that reaches both microphones equally strong.</summary>
    /// <remarks>With g the amplitude ratio, such a sound is (1 + g) in one loudspeaker and |1 − g| in the other.</remarks>
    public static string SideLevel(Decibels level)
    {
        var gain = level.AmplitudeRatio;
        if (!(gain > 0))
            return "mono: no side, both loudspeakers play the mid";
        if (Math.Abs(level.Value) < 0.05)
            return "a sound as strong in the side as in the mid comes from one loudspeaker alone";
        var difference = Markup.Readable(20 * Math.Log10((1 + gain) / Math.Abs(1 - gain)), 1);
        return gain < 1
            ? $"a sound as strong in the side as in the mid is {difference} dB louder in one loudspeaker than in the other"
            : $"wider than the pair: a sound as strong in the side as in the mid is {difference} dB louder in one loudspeaker, and of opposite polarity in the other";
    }

    /// <summary>'0.40 s', '42.3 s', '3:07.5 min', '1:02:03 h'.</summary>
    public static string Duration(double seconds)
    {
        if (!double.IsFinite(seconds))
            return "?";
        if (seconds < 9.995)
            return Markup.Readable(seconds, 2) + " s";
        var tenths = (long)Math.Round(seconds * 10, MidpointRounding.AwayFromZero);
        if (tenths < 600)
            return Markup.Readable(tenths / 10.0, 1) + " s";
        var (minutes, rest) = Math.DivRem(tenths, 600);
        if (minutes < 60)
            return string.Create(CultureInfo.InvariantCulture, $"{minutes}:{rest / 10:00}.{rest % 10} min");
        return string.Create(CultureInfo.InvariantCulture, $"{minutes / 60}:{minutes % 60:00}:{rest / 10:00} h");
    }

    /// <summary>A place in an effect, to the hundredth of a second: '12.34 s', '3:07.50'.</summary>
    public static string Place(double seconds)
    {
        var hundredths = (long)Math.Round(seconds * 100, MidpointRounding.AwayFromZero);
        return hundredths < 6000
            ? Markup.Readable(hundredths / 100.0, 2) + " s"
            : string.Create(CultureInfo.InvariantCulture, $"{hundredths / 6000}:{hundredths / 100 % 60:00}.{hundredths % 100:00}");
    }

    internal static string Severity(FindingSeverity severity) => severity switch
    {
        FindingSeverity.Fault => "Fault",
        FindingSeverity.Caution => "Caution",
        _ => "Note",
    };

    /// <summary>'2 faults', '1 caution'; empty for none.</summary>
    internal static IReadOnlyList<string> Tally(IReadOnlyList<EffectFinding> findings)
    {
        var parts = new List<string>();
        foreach (var severity in (ReadOnlySpan<FindingSeverity>)[FindingSeverity.Fault, FindingSeverity.Caution, FindingSeverity.Note])
        {
            var count = findings.Count(f => f.Finding.Severity == severity);
            if (count > 0)
                parts.Add(string.Create(CultureInfo.InvariantCulture, $"{count} {Severity(severity).ToLowerInvariant()}{(count > 1 ? "s" : "")}"));
        }

        return parts;
    }
}
