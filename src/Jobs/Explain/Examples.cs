using Athwart.Jobs.Evidences;
using Athwart.Quantities;

namespace Athwart.Jobs.Explain;

/// <summary>A made case of each kind of finding.</summary>
internal static class Examples
{
    private const int Rate = ExampleSound.Rate;

    /// <summary>The case of an explanation.</summary>
    public static EvidenceCase Of(Explanation explanation)
    {
        var (sound, shape) = Case(explanation.Kind);
        var finding = new Finding
        {
            Kind = explanation.Kind,
            Severity = shape.Severity,
            Message = explanation.What,
            Role = shape.Role,
            Range = shape.Range is { } r ? FrameRange.FromFrames((long)(r.From * Rate), (long)(r.To * Rate)) : null,
            Size = shape.Size,
            SizeUnit = shape.Unit,
            Evidence = shape.Evidence,
        };
        return new("example-" + explanation.Kind, finding, sound.Held(), 1)
        {
            Take = "T05",
            Siblings = [("T01", -6), ("T02", -8), ("T03", -5), ("T04", -7), ("T05", -27), ("T06", -6.5)],
            File = ExampleFiles.Of(explanation.Kind),
        };
    }

    private static (ExampleSound Sound, Shape Shape) Case(string kind) => kind switch
    {
        "full-scale-runs" => Loud(1.6, 1),
        "flat-tops" => Loud(1.6, 0.55),
        "float-overs" => Loud(1.6, double.PositiveInfinity),
        "not-finite" => (Change(1, 1 + (4.0 / Rate), _ => float.NaN), At(1, 1 + (4.0 / Rate), ChannelRole.Side)),
        "click" => (Change(1, 1 + (1.5 / Rate), s => s + 0.35f), At(1, 1 + (2.0 / Rate), ChannelRole.Side)),
        "dropout" => (Change(1, 1 + (80.0 / Rate), _ => 0), At(1, 1 + (80.0 / Rate), ChannelRole.Side)),
        "repeated-block" => (Repeat(), At(1.2, 1.2 + (128.0 / Rate), null)),
        "missing-block" => (Missing(both: true), At(1.2, 1.2 + (1.0 / Rate), null)),
        "discontinuity" => (Missing(both: false), At(1.2, 1.2 + (1.0 / Rate), ChannelRole.Side)),
        "decoded-overload" => (Wide(), At(1, 1.005, ChannelRole.Left) with { Severity = FindingSeverity.Caution }),
        "digital-silence" => (Both(1.2, 1.7, _ => 0), At(1.2, 1.7, null)),
        "silent-take" => (ExampleSound.Place(3, 1e-6, 0), Whole(FindingSeverity.Fault)),
        "dead-channel" => (Change(0, 9, _ => 0), Whole(FindingSeverity.Fault, ChannelRole.Side)),
        "one-channel" => (Change(0, 9, _ => 0), Whole(FindingSeverity.Caution)),
        "voice-slate" => (ExampleSound.Place(6, 0.01, 0).Speak(0.5, 2.2, 0.12), At(0.5, 2.2, ChannelRole.Mid) with { Severity = FindingSeverity.Note }),
        "early-end" => (ExampleSound.Place(3.02, 0.01, 0).Also(s => s.Stroke(s.Mid, 2.5, 0.5, 300, 0.6)), At(3, 3.02, null) with { Severity = FindingSeverity.Note }),
        "handling" => (ExampleSound.Place(4, 0.01, 0).Also(s => s.Stroke(s.Side, 1.5, 0.6, 28, 0.09).Stroke(s.Mid, 1.5, 0.2, 28, 0.09)), At(1.48, 2, ChannelRole.Side)),
        "level-jump" => (ExampleSound.Place(6).Also(s => s.Change(s.Side, x => 0.25f * x, 3)), At(3, 6, ChannelRole.Side)),
        "long-quiet" => (ExampleSound.Place(3, 0.004).Longer(), At(3, 14, null) with { Severity = FindingSeverity.Note }),
        "side-weak" or "side-unlike-profile" => (ExampleSound.Place(4).Also(s => s.Change(s.Side, x => 0.03f * x)), Whole(FindingSeverity.Caution, ChannelRole.Side)),
        "side-strong" => (ExampleSound.Place(4).Also(s => s.Change(s.Mid, x => 0.15f * x)), Whole(FindingSeverity.Caution)),
        "wind" => (ExampleSound.Place(6, 0.01, 0.05).Also(s => s.AddNoise(s.Side, 0.4, 25, 1, 2.6).AddNoise(s.Side, 0.5, 25, 3.5, 5.2).AddNoise(s.Mid, 0.1, 25, 3.4, 5)), At(1, 5.2, ChannelRole.Side)),
        "rumble" => (ExampleSound.Place(6, 0.01, 0.05).Also(s => s.AddNoise(s.Mid, 0.12, 22).AddNoise(s.Side, 0.05, 22)), Whole(FindingSeverity.Note, ChannelRole.Mid)),
        "tone" => (ExampleSound.Place(4, 0.02, 0).Also(s => s.Tone(s.Mid, 3150, 0.004)), Line(3150)),
        "ultrasonic-tone" => (ExampleSound.Place(4, 0.02, 0).Also(s => s.Tone(s.Mid, 21_600, 0.002)), Line(21_600)),
        "sweeping-tone" => (ExampleSound.Place(5, 0.01, 0.05).Also(s => s.Glide(s.Mid, 900, 4200, 0.02, 1, 4)), At(1, 4, ChannelRole.Mid) with { Severity = FindingSeverity.Note }),
        "hum" => (ExampleSound.Place(6, 0.004, 0).Also(s => Hum(s)), Line(50)),
        "low-bandwidth" => (Dull(), Line(7000)),
        "noisy-take" => (ExampleSound.Place(4, 0.0006, 0.0012), Whole(FindingSeverity.Note, ChannelRole.Mid)),
        "side-noise" => (ExampleSound.Place(4, 0.001, 0.2).Also(s => s.AddNoise(s.Side, 0.006, 12_000)), Whole(FindingSeverity.Note, ChannelRole.Side)),
        "side-low-end" => Thirds("side to mid", [-24, -19, -14, -9, -5, -3, -2, -2, -3, -2], 63, 110),
        "mono-loss" => Thirds("loss", [1, 1.2, 2, 3, 5, 8, 6, 3, 2, 1.5], 125, null),
        "identical-channels" => (Copy(1), Whole(FindingSeverity.Fault)),
        "scaled-copy" => (Copy(0.5f), Whole(FindingSeverity.Fault)),
        "already-decoded" or "says-left-right" or "is-recorded-decode" => (LeftRight(), Whole(FindingSeverity.Caution)),
        "roles-swapped" => (Exchanged(), Whole(FindingSeverity.Caution)),
        "low-correlation" => (ExampleSound.Place(5).Also(s => s.Change(s.Side, x => 5 * x, 2, 2.8)), At(2, 2.8, null)),
        "side-inverted" => (Passing(), Whole(FindingSeverity.Caution, ChannelRole.Side)),
        "out-of-phase" => (Exchanged(), Whole(FindingSeverity.Caution)),
        "side-delay" or "side-late" => (Late(), Whole(FindingSeverity.Caution, ChannelRole.Side) with { Size = 24, Unit = "frames" }),
        "dc-offset" => (ExampleSound.Place(3, 0.01, 0.05).Also(s => s.Change(s.Side, x => x + 0.02f)), Whole(FindingSeverity.Caution, ChannelRole.Side) with { Size = 2, Unit = "%" }),
        _ => (ExampleSound.Place(2), Whole(FindingSeverity.Note) with { Evidence = ExampleNumbers.Of(kind) }),
    };

    private static (ExampleSound, Shape) Loud(double drive, double ceiling)
    {
        var sound = ExampleSound.Place(2, 0.02, 0).Also(s => s.Tone(s.Mid, 170, drive * 0.7, 0.9, 1.1).Tone(s.Mid, 430, drive * 0.2, 0.9, 1.1));
        if (double.IsFinite(ceiling))
            sound.Change(sound.Mid, x => (float)Math.Clamp(x, -ceiling, ceiling));
        return (sound, At(0.996, 1.004, ChannelRole.Mid));
    }

    private static void Hum(ExampleSound sound)
    {
        for (var k = 1; k <= 7; k++)
            sound.Tone(sound.Side, 50 * k, 0.01 / k).Tone(sound.Mid, 50 * k, 0.003 / k);
    }

    private static ExampleSound Change(double from, double to, Func<float, float> change) => ExampleSound.Place(2).Also(s => s.Change(s.Side, change, from, to));

    private static ExampleSound Both(double from, double to, Func<float, float> change) => ExampleSound.Place(3).Also(s => s.Change(s.Mid, change, from, to).Change(s.Side, change, from, to));

    private static ExampleSound Repeat() => Tonal().Also(s =>
    {
        var at = (int)(1.2 * Rate);
        foreach (var channel in (ReadOnlySpan<int>)[0, 1])
        {
            var samples = channel == 0 ? s.Mid : s.Side;
            samples.Slice(at - 128, 128).CopyTo(samples[at..]);
        }
    });

    private static ExampleSound Missing(bool both) => Tonal().Also(s =>
    {
        var at = (int)(1.2 * Rate);
        if (both)
            s.Mid[(at + 60)..].CopyTo(s.Mid[at..]);
        s.Side[(at + 60)..].CopyTo(s.Side[at..]);
    });

    private static ExampleSound Tonal() => ExampleSound.Place(2, 0.004, 0).Also(s => s.Tone(s.Mid, 312, 0.2).Tone(s.Side, 441, 0.15));

    private static ExampleSound Wide() => ExampleSound.Place(2, 0.01, 0).Also(s => s.Tone(s.Mid, 220, 0.75, 0.9, 1.1).Tone(s.Side, 220, 0.55, 0.9, 1.1));

    private static ExampleSound Copy(float gain) => ExampleSound.Place(3).Also(s =>
    {
        for (var i = 0; i < s.Mid.Length; i++)
            s.Side[i] = gain * s.Mid[i];
    });

    private static ExampleSound LeftRight() => ExampleSound.Place(4).Also(s =>
    {
        for (var i = 0; i < s.Mid.Length; i++)
            (s.Mid[i], s.Side[i]) = (s.Mid[i] + s.Side[i], s.Mid[i] - s.Side[i]);
    });

    private static ExampleSound Exchanged() => ExampleSound.Place(4).Also(s =>
    {
        for (var i = 0; i < s.Mid.Length; i++)
            (s.Mid[i], s.Side[i]) = (s.Side[i], s.Mid[i]);
    });

    // What passes from left to right, heard from right to left.
    private static ExampleSound Passing() => ExampleSound.Place(5, 0.002, 0).Also(s => s.AddNoise(s.Mid, 0.2, 3000)).Also(s =>
    {
        for (var i = 0; i < s.Mid.Length; i++)
        {
            var azimuth = (((double)i / s.Mid.Length) - 0.5) * 2.4;
            s.Side[i] += s.Mid[i] * (float)(Math.Sin(azimuth) / (0.5 + (0.5 * Math.Cos(azimuth))));
        }
    });

    private static ExampleSound Late() => ExampleSound.Place(3, 0.01, 0).Also(s =>
    {
        for (var at = 0.2; at < 2.8; at += 0.31)
            s.Stroke(s.Mid, at, 0.4, 900, 0.004).Stroke(s.Side, at + (24.0 / Rate), 0.3, 900, 0.004);
    });

    private static ExampleSound Dull() => ExampleSound.Place(4, 0, 0).Also(s =>
    {
        for (var hertz = 40.0; hertz < 7000; hertz *= 1.013)
            s.Tone(s.Mid, hertz, 0.004).Tone(s.Side, hertz * 1.004, 0.002);
        s.AddNoise(s.Mid, 2e-6, 20_000).AddNoise(s.Side, 2e-6, 20_000);
    });

    private static (ExampleSound, Shape) Thirds(string what, double[] values, double lowest, double? corner) => (ExampleSound.Place(1), Whole(FindingSeverity.Note, ChannelRole.Side) with
    {
        Evidence =
        [
            .. corner is { } hertz ? (Evidence[])[new("corner", hertz, "Hz")] : [],
            .. values.Select((v, i) => new Evidence(FormattableString.Invariant($"{what} at {lowest * Math.Pow(2, i / 3.0):0} Hz"), v, "dB")),
        ],
    });

    private static Shape At(double from, double to, ChannelRole? role) => new(FindingSeverity.Fault, role, (from, to), null, "", []);

    private static Shape Whole(FindingSeverity severity, ChannelRole? role = null) => new(severity, role, null, null, "", []);

    private static Shape Line(double hertz) => new(FindingSeverity.Note, ChannelRole.Mid, null, hertz, "Hz", []);

    private sealed record Shape(FindingSeverity Severity, ChannelRole? Role, (double From, double To)? Range, double? Size, string Unit, IReadOnlyList<Evidence> Evidence);
}

/// <summary>Small helpers of the examples.</summary>
internal static class ExampleSteps
{
    /// <summary>The same sound after a step.</summary>
    public static ExampleSound Also(this ExampleSound sound, Action<ExampleSound> step)
    {
        step(sound);
        return sound;
    }

    /// <summary>With quiet between its strokes: what happens, happens at both ends.</summary>
    public static ExampleSound Longer(this ExampleSound sound)
    {
        _ = sound;
        return ExampleSound.Place(16, 0.002, 0).Also(s => s.Stroke(s.Mid, 0.5, 0.3).Stroke(s.Mid, 1.4, 0.3).Stroke(s.Mid, 2.4, 0.25).Stroke(s.Mid, 14.5, 0.3).Stroke(s.Mid, 15.2, 0.3));
    }
}
