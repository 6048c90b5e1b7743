using Athwart.Metering;
using Athwart.Quantities;
using Athwart.Scenes.Faults;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rigs;
using Found = Athwart.Metering.Faults.FaultKinds;
using Planted_ = Athwart.Scenes.Faults.FaultKinds;

namespace Athwart.Accuracy;

/// <summary>Every fault of the table, at sizes a listener minds.</summary>
internal static partial class Plantings
{
    public static IReadOnlyList<Planting> All { get; } = [.. Level, .. Sounding, .. Damage, .. Pair];

    private static IEnumerable<Planting> Level =>
    [
        new("overload", "1 to 6 dB beyond full scale, integers, a run of 4 samples or more", (t, c) => t.Scene.Rig.Word == SampleWord.Floating ? null
            : One(AnyRole(t, c), role => new Overload(c.Between(1, 6)) { Role = role }, FindingKinds.FullScaleRuns) with { EdgesOf = Planted_.FullScale, Needs = (Planted_.FullScale, 1) }),
        new("flat tops below full scale", "limit −6 to −1 dBFS, 3 to 9 dB over it, 3 tops or more of 4 samples", (t, c) => One(AnyRole(t, c), role => new ClippedInput(c.Between(-6, -1), c.Between(3, 9)) { Role = role }, FindingKinds.FlatTops) with { EdgesOf = Planted_.FlatTops, Needs = (Planted_.FlatTops, 3) }),
        new("float overs", "1 to 6 dB", (t, c) => t.Scene.Rig.Word != SampleWord.Floating ? null
            : One(AnyRole(t, c), role => new Overload(c.Between(1, 6)) { Role = role }, FindingKinds.FloatOvers)),
        new("overload of the decode alone", "1 to 3 dB", (t, c) => DecodedPeak(t) < 1.2 ? null : new([new DecodedOverload(1)], FindingKinds.DecodedOverload)),
        new("offset", "0.5 to 5 % of full scale", (t, c) => One(AnyRole(t, c), role => new DcOffset((c.Unit() < 0.5 ? -1 : 1) * c.Ratio(0.005, 0.05)) { Role = role }, FindingKinds.DcOffset)),
        new("role dead", "no sound at all", (t, c) => One(AnyRole(t, c), role => new GainFault(double.NegativeInfinity) { Role = role }, FindingKinds.DeadChannel)),
        new("role dead for a part", "0.3 to 2 s", (t, c) => One(AnyRole(t, c), role => new GainFault(double.NegativeInfinity) { Role = role, FromSeconds = 2, ToSeconds = 2 + c.Between(0.3, 2) }, FindingKinds.DigitalSilence, FindingKinds.DeadChannel)),
        new("level jump", "3 to 10 dB, one role", (t, c) =>
        {
            var decibels = c.Between(3, 10) * (c.Unit() < 0.5 ? -1 : 1);
            return One(AnyRole(t, c), role => new LevelJump((int)(t.Frames * c.Between(0.3, 0.7)), decibels) { Role = role }, Found.LevelJump) with { Number = new("gain", decibels, 0.3, f => f.Size ?? double.NaN) };
        }),
        new("low rate in a higher file", "22 to 48 kHz in the next rates up", (t, c) =>
        {
            var source = (double[])[22_050, 32_000, 44_100, 48_000];
            var rates = source.Where(r => r < 0.76 * t.Rate).ToArray();
            var rate = rates[(int)(c.Unit() * rates.Length)];
            // The edge must stand out of what the take has there.
            return Math.Max(t.Loud(ChannelRole.Mid, 0.4 * rate, 0.44 * rate), t.Loud(ChannelRole.Mid, 0.35 * rate, 0.4 * rate)) < -85 ? null : new Planted([new LowRateSource(rate)], FindingKinds.LowBandwidth);
        }),
    ];

    private static IEnumerable<Planting> Sounding =>
    [
        new("hum", "6 to 18 dB above what the quiet has from 30 to 300 Hz, −65 dBFS or more", (t, c) =>
        {
            var role = AnyRole(t, c);
            var hertz = (c.Unit() < 0.5 ? 50 : 60) * c.Between(0.996, 1.004);
            var level = Math.Max(-65, t.Quiet(role, 30, 300) + c.Between(6, 18));
            return level > -20 ? null : One(role, r => new Hum(level, hertz, DriftHertz: c.Between(0, 0.02)) { Role = r }, Found.Hum) with { Number = new("hum frequency", hertz, 0.02, f => f.Evidence.FirstOrDefault(e => e.Name is "frequency")?.Value ?? double.NaN) };
        }),
        new("tone", "100 Hz to 15 kHz, 6 to 18 dB above the quiet of its critical band, −80 dBFS or more", (t, c) =>
        {
            var (role, hertz) = (AnyRole(t, c), c.Ratio(100, 15_000));
            var level = Over(t, role, hertz, c.Between(6, 18));
            return level > -12 ? null : One(role, r => new Tone(level, hertz) { Role = r }, Found.Tone) with { Number = new("tone frequency", hertz, 0.01, f => f.Size ?? double.NaN, true) };
        }),
        new("sweeping line", "over a sixth to one octave, level as a tone's plus 6 dB", (t, c) =>
        {
            var (role, hertz) = (AnyRole(t, c), c.Ratio(400, 9_000));
            var (level, to) = (6 + Math.Max(Over(t, role, hertz, c.Between(6, 18)), Over(t, role, 1.5 * hertz, c.Between(6, 18))), hertz * Math.Pow(2, c.Between(0.17, 1)));
            return level > -12 ? null : One(role, r => new Tone(level, hertz, to) { Role = r }, Found.SweepingTone);
        }),
        new("ultrasonic spur", "20.5 kHz and up, −85 to −60 dBFS, 12 dB above the quiet of a twelfth octave", (t, c) =>
        {
            if (t.Rate < 80_000)
                return null;
            var (role, hertz) = (AnyRole(t, c), c.Ratio(20_500, 0.45 * t.Rate));
            var level = Math.Max(c.Between(-85, -60), t.Loud(role, hertz / 1.03, hertz * 1.03) + 6);
            return One(role, r => new Tone(level, hertz) { Role = r }, Found.UltrasonicTone);
        }),
        new("wind", "gusts 6 to 20 dB above the take's own 20 to 80 Hz, no softer than 6 dB below what it has from 100 to 400 Hz, −45 dBFS or more", (t, c) =>
        {
            var own = Math.Max(-45, Math.Max(t.Loud(ChannelRole.Mid, 20, 80), t.Loud(ChannelRole.Side, 20, 80)) + c.Between(6, 20));
            // Softer than that, what is above hides it.
            own = Math.Max(own, Math.Max(t.Loud(ChannelRole.Mid, 100, 400), t.Loud(ChannelRole.Side, 100, 400)) - 6);
            // Of turbulence from 4 Hz on, 20 to 80 Hz hold about 9 dB less than the whole.
            return own > -16 ? null : new([new Wind(own + 9 + 94 - 0.02, GustDecibels: 5) { Role = c.Unit() < 0.4 ? ChannelRole.Side : null, FromSeconds = 1, ToSeconds = c.Between(5, 9) }], Found.Wind);
        }),
        new("handling", "2 thumps, peaks 6 to 15 dB above the take's loud", (t, c) =>
        {
            var peak = Math.Max(t.Loud(ChannelRole.Mid, 20, 0.4 * t.Rate), -45) + 9 + c.Between(6, 15);
            return peak > -1 ? null : new([new Handling([c.Between(1, 3), c.Between(5, 8)], peak + 94)], Found.Handling);
        }),
        new("side low end missing", "corner 120 to 400 Hz, 12 to 24 dB an octave", (t, c) =>
        {
            var hertz = c.Ratio(120, 400);
            return t.Loud(ChannelRole.Side, 40, 100) < t.Loud(ChannelRole.Side, 400, 4000) - 40 || t.Loud(ChannelRole.Side, 40, 100) < -75 ? null
                : new Planted([new LowEndMissing(hertz, 2 + (int)(c.Unit() * 3))], Found.SideLowEnd) { Role = ChannelRole.Side, Number = new("corner", hertz, 1 / 3.0, f => f.Size ?? double.NaN, true) };
        }),
    ];

    private static Planted One(ChannelRole role, Func<ChannelRole, Fault> fault, params string[] kinds) => new([fault(role)], kinds) { Role = role };

    private static ChannelRole AnyRole(BaseTake t, Chance c) => t.Frames > 0 && c.Unit() < 0.5 ? ChannelRole.Mid : ChannelRole.Side;

    /// <summary>So far above the quiet of the critical band (equivalent rectangular bandwidth, from memory).</summary>
    private static double Over(BaseTake t, ChannelRole role, double hertz, double decibels)
    {
        var half = (12.35 + (hertz / 18.5)) * 1.0;
        return Math.Max(-80, t.Quiet(role, hertz - half, Math.Min(hertz + half, 0.44 * t.Rate)) + decibels);
    }

    private static double DecodedPeak(BaseTake t)
    {
        var (alone, decoded) = (1e-9, 0.0);
        for (var i = 0; i < t.Frames; i++)
        {
            alone = Math.Max(alone, Math.Max(Math.Abs(t.Mid[i]), Math.Abs(t.Side[i])));
            decoded = Math.Max(decoded, Math.Abs(t.Mid[i]) + Math.Abs(t.Side[i]));
        }

        return decoded / alone;
    }
}
