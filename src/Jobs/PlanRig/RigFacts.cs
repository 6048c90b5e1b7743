using System.Globalization;
using static System.FormattableString;

namespace Athwart.Jobs.PlanRig;

/// <summary>One line about a rig.</summary>
/// <param name="Group">Under which heading it stands.</param>
/// <param name="Label">What it is.</param>
/// <param name="Value">What it comes to, with units.</param>
public sealed record RigFact(string Group, string Label, string Value);

/// <summary>A rig in lines for people: the same in tables, pages and comparisons.</summary>
public static class RigFacts
{
    /// <summary>What is shown for a figure that is not known.</summary>
    public const string NotKnown = "not known";

    /// <summary>The lines, in the order of the day's questions: what it covers, how it sounds, what to set, what it takes.</summary>
    public static IReadOnlyList<RigFact> Of(RigDocument d)
    {
        ArgumentNullException.ThrowIfNull(d);
        return [.. Image(d), .. Room(d), .. Levels(d), .. Outfit(d)];
    }

    private static IEnumerable<RigFact> Image(RigDocument d)
    {
        const string Group = "Image";
        yield return new(Group, "Side level", d.SideLevel.Decibels is { } level ? Signed(level, "dB") : "−∞ dB, mono");
        yield return new(Group, Invariant($"Coverage ({d.Coverage.ThresholdDecibels:0.#} dB)"), Coverage(d.Coverage.Degrees));
        if (d.Coverage.ThresholdDecibels is not (15 or 18))
            yield return new(Group, "Coverage (15 dB)", Coverage(d.Coverage.At15Degrees));
        if (d.Coverage.ThresholdDecibels != 18)
            yield return new(Group, "Coverage (18 dB)", Coverage(d.Coverage.At18Degrees));
        var pair = d.VirtualPair;
        yield return new(Group, "Equal to", Invariant($"a crossed pair at {pair.IncludedAngleDegrees:0.0}°, {Pattern(pair)}{(pair.NullDegrees is { } n ? Invariant($", null {n:0}° off axis") : "")}"));
        yield return new(Group, "On its axes", Invariant($"{Signed(pair.OnAxisGainDecibels, "dB")} against the mid alone"));
        if (d.Subject is { } subject)
        {
            yield return new(Group, "Subject", Invariant($"fills {subject.AngleDegrees:0}° ({subject.LeftEdgeDegrees:0}° left to {-subject.RightEdgeDegrees:0}° right); suits {subject.SuitingCoverageDegrees:0}° of coverage{(subject.SuitingSideLevelDecibels is { } suits ? Invariant($", a side level of {Signed(suits, "dB")}") : ", which this mid cannot reach")}"));
            yield return new(Group, "In this coverage it", subject.Verdict);
        }

        foreach (var behind in d.Behind.Take(2))
            yield return new(Group, behind.AzimuthDegrees == 180 ? "Straight behind" : Invariant($"Behind, at {behind.AzimuthDegrees:0}°"), Invariant($"{(behind.AgainstFrontDecibels is { } b ? Signed(b, "dB") + ", " : "")}{behind.Words}"));
        foreach (var sentence in d.OverFrequency)
            yield return new(Group, "Over frequency", sentence);
        if (d.Delay is { } delay)
            yield return new(Group, "Side's delay", Invariant($"up to {delay.LongestMicroseconds:0.0} µs = {delay.LongestSamples:0.00} samples: {string.Join(", ", delay.Rows.Where(r => r.AzimuthDegrees is 0 or 45 or 90 or 180).Select(r => Invariant($"{Signed(r.Microseconds, "µs")} at {r.AzimuthDegrees:0}°")))}"));
    }

    private static string Pattern(VirtualPairSection pair) =>
        pair.Pattern.StartsWith("omni share", StringComparison.Ordinal) ? Invariant($"omni share {pair.OmniShare:0.00}") : $"{pair.Pattern}s";

    private static IEnumerable<RigFact> Room(RigDocument d)
    {
        const string Group = "Room";
        yield return new(Group, "Correlation in a diffuse field", d.Diffuse.Correlation is { } r ? r.ToString("+0.00;−0.00;0.00", CultureInfo.InvariantCulture) : NotKnown);
        yield return new(Group, "Direct to diffuse, ahead", Signed(d.Diffuse.DirectToDiffuseDecibels, "dB"));
        yield return new(Group, "Mid: directivity, distance", Invariant($"{d.Diffuse.MidDirectivityIndexDecibels:0.0} dB, {d.Diffuse.MidDistanceFactor:0.00} times"));
        yield return new(Group, "Left/right: directivity, distance", Invariant($"{d.Diffuse.LeftRightDirectivityIndexDecibels:0.0} dB, {d.Diffuse.LeftRightDistanceFactor:0.00} times"));
        yield return new(Group, "From behind", Invariant($"{d.Diffuse.RearSharePercent:0} % of the room"));
    }

    private static IEnumerable<RigFact> Levels(RigDocument d)
    {
        const string Group = "Levels";
        if (d.Gains is { } gains)
        {
            yield return new(Group, "Gain of the mid", Gain(gains.Mid));
            yield return new(Group, "Gain of the side", Gain(gains.Side));
            if (gains.MatchDecibels is { } match)
                yield return new(Group, "Sensitivities match when", Invariant($"the side's gain is {Signed(match, "dB")} against the mid's{(gains.TrimDecibels is { } trim && Math.Abs(trim) >= 0.05 ? Invariant($"; the steps leave {Signed(trim, "dB")} for the decode") : "")}"));
            yield return new(Group, "One gain for both", gains.SharedGainDecibels is { } shared ? Invariant($"{shared:0.#} dB, then {Signed(gains.SharedTrimDecibels ?? 0, "dB")} on the side in the decode") : "not possible or not known");
            foreach (var message in gains.Messages)
                yield return new(Group, "Beware", message);
        }

        yield return new(Group, "Noise of left and right", d.Noise.LeftRightDecibelsA is { } noise ? Invariant($"{noise:0.0} dBA{(d.Noise.SideCostDecibels is { } cost ? Invariant($"; the side costs {cost:0.0} dB") : "")}") : NotKnown);
        yield return new(Group, "Noise of the mono", d.Noise.MonoDecibelsA is { } mono ? Invariant($"{mono:0.0} dBA") : NotKnown);
        if (d.Noise.SignalToNoiseDecibels is { } snr)
            yield return new(Group, "Quietest sound above it", Invariant($"{snr:0.0} dB{(d.Noise.MonoSignalToNoiseDecibels is { } m ? Invariant($" ({m:0.0} dB in mono)") : "")}"));
        if (d.Reach is { } reach)
            yield return new(Group, "Worth slowing down up to", reach.HighestHertz is { } hertz ? Invariant($"{hertz / 1000:0.0} kHz, then {Limit(reach.LimitedBy)}") : NotKnown);
        foreach (var row in d.Reach?.Rows.Where(r => r.Hertz is 1000 or 8000 or 20_000 or 40_000 or 80_000) ?? [])
            yield return new(Group, Invariant($"At {row.Hertz / 1000:0.#} kHz there arrive"), Invariant($"{row.LevelDecibels:0.0;−0.0} dB; the air took {row.AirDecibels:0.0} dB{(row.NoiseDecibels is { } own ? Invariant($"; the rig's noise there is {own:0.0;−0.0} dB") : "")}"));
        if (d.Exposure is { } exposure)
            yield return new(Group, "Your ears", Invariant($"{(exposure.NioshDosePercent is { } dose ? Invariant($"{dose:0} % of the NIOSH day") : "beyond the NIOSH ceiling")}; EU: {exposure.European}"));
    }

    private static string Gain(ChannelRow c) => c.GainDecibels is not { } gain ? NotKnown
        : Invariant($"{gain:0.#} dB: loudest peak {Signed(c.LoudestDecibelsFullScale ?? 0, "dBFS")}, quietest {Signed(c.QuietestDecibelsFullScale ?? 0, "dBFS")}{(c.MicrophoneMarginDecibels is { } m ? Invariant($"; {m:0.0} dB below the microphone's maximum") : "")}");

    private static string Limit(string? limit) => limit switch
    {
        "noise" => "it sinks into the noise",
        "microphone" => "a microphone falls off",
        "rate" => "the sample rate ends",
        _ => "the formula for air ends",
    };

    private static IEnumerable<RigFact> Outfit(RigDocument d)
    {
        const string Group = "Outfit";
        if (d.Parts.Recorder is { } recorder)
            yield return new(Group, "Recorder", recorder);
        if (d.Parts.WeightGrams is { } grams)
            yield return new(Group, "On the boom", Invariant($"{grams:0} g"));
        if (d.Parts.Fit is { } fit)
            yield return new(Group, "Protection", fit);
        if (d.Power is { } power)
        {
            yield return new(Group, "Card", power.CardHours is { } hours ? Invariant($"{hours:0.0} h{(power.SplitMinutes is { } split ? Invariant($", a new file every {split:0} min") : "")}") : Invariant($"{power.HoursPerGigabyte:0.00} h a gigabyte"));
            yield return new(Group, "Batteries", Invariant($"{(power.BatteryHours is { } battery ? Invariant($"{battery:0.0} h") : NotKnown)}{(power.PhantomMilliamperes is { } mA ? Invariant($" with {mA:0.#} mA of phantom") : "")}{(power.PhantomSuffices == false ? ", more than the recorder gives" : "")}"));
        }

        yield return new(Group, "To buy", d.Parts.ToBuy.Count == 0 ? "nothing" : Invariant($"{string.Join(" and ", d.Parts.Cost)} ({string.Join("; ", d.Parts.ToBuy)})"));
    }

    private static string Coverage(double? degrees) => degrees is { } d ? Invariant($"{d:0.0}°") : "never reached: nothing gets fully to one side";

    private static string Signed(double value, string unit) => value.ToString("+0.0;−0.0;0.0", CultureInfo.InvariantCulture).TrimStart(string.Equals(unit, "dB", StringComparison.Ordinal) ? '\0' : '+') + " " + unit;
}
