using Athwart.Metering;
using Athwart.Quantities;
using Athwart.Scenes.Faults;
using Athwart.Scenes.Numbers;
using Found = Athwart.Metering.Faults.FaultKinds;
using Planted_ = Athwart.Scenes.Faults.FaultKinds;

namespace Athwart.Accuracy;

internal static partial class Plantings
{
    private static IEnumerable<Planting> Damage =>
    [
        new("clicks", "3 single samples, 4 times the level around, −34 dBFS or more", (t, c) =>
        {
            var role = AnyRole(t, c);
            var frames = Enumerable.Range(0, 3).Select(i => (int)(t.Frames * (0.1 + (0.25 * i) + (0.2 * c.Unit())))).ToArray();
            var size = Math.Max(0.02, frames.Max(f => 4 * Places.Level(t, role, f)));
            return size > 0.6 ? null : One(role, r => new Clicks(frames, size) { Role = r }, Found.Click) with { EdgesOf = Planted_.Clicks };
        }),
        new("dropout of zeros", "1 to 20 ms, in sound above −45 dBFS", (t, c) => Places.Sounding(t, c, -45, t.Rate / 20) is not { } at ? null
            : new Planted([new Dropouts([at], (int)(t.Rate * c.Ratio(0.001, 0.02))) { Role = c.Unit() < 0.5 ? null : ChannelRole.Side }], Found.Dropout) { EdgesOf = Planted_.Dropouts }),
        new("dropout that holds", "1 to 20 ms, in sound above −45 dBFS", (t, c) => Places.Sounding(t, c, -45, t.Rate / 20) is not { } at ? null
            : new Planted([new HeldValue(at, (int)(t.Rate * c.Ratio(0.001, 0.02))) { Role = c.Unit() < 0.5 ? null : ChannelRole.Side }], Found.Dropout) { EdgesOf = Planted_.HeldValue }),
        new("repeated block", "64 to 4096 frames, in sound above −60 dBFS", (t, c) => Places.Sounding(t, c, -60, 8192) is not { } at ? null
            : new([new RepeatedBlock(at, (int)c.Ratio(64, 4096), c.Unit() < 0.5)], Found.RepeatedBlock) { EdgesOf = Planted_.RepeatedBlock }),
        new("missing block", "64 to 4096 frames, whose tick stands 20 dB out of 20 ms around", (t, c) =>
        {
            var length = (int)c.Ratio(64, 4096);
            return Places.Tick(t, c, length) is not { } at ? null : new Planted([new MissingBlock(at, length)], Found.MissingBlock) { EdgesOf = Planted_.MissingBlock };
        }),
        new("early end", "the last 20 ms within 12 dB of the loudest and 20 dB above the quiet", (t, c) =>
        {
            for (var i = 0; i < 300; i++)
            {
                var frame = (int)c.Between(0.5 * t.Frames, 0.95 * t.Frames);
                var level = Levels.Decibels(Math.Min(Places.Level(t, ChannelRole.Mid, frame - (t.Rate / 50)), Places.Level(t, ChannelRole.Mid, frame - (t.Rate / 100))));
                // Quiet and loud of what is left: nobody hears what came after.
                var (quiet, loud) = Places.QuietAndLoud(t, ChannelRole.Mid, frame);
                if (level > quiet + 20 && level > loud - 12)
                    return new([new EarlyEnd(frame / (double)t.Rate)], Found.EarlyEnd);
            }

            return null;
        }),
    ];

    private static IEnumerable<Planting> Pair =>
    [
        new("late side", "2 to 100 samples at 48 kHz (42 µs to 2 ms), coincident capsules", (t, c) =>
        {
            if (!t.Coincident)
                return null;
            var late = c.Ratio(2, 100) * (c.Unit() < 0.7 ? 1 : -1) * t.Rate / 48_000;
            // A recording of spaced microphones has a delay already; the fault adds to it.
            var own = t.Name is null ? 0 : FaultRun.Check(Array.ConvertAll(t.Mid, x => (float)x), Array.ConvertAll(t.Side, x => (float)x), t.Rate, t.Scene.Rig.Word).FirstOrDefault(f => string.Equals(f.Kind, Found.SideDelay, StringComparison.Ordinal))?.Size ?? 0;
            return new Planted([new LateSide(late)], Found.SideDelay) { Role = ChannelRole.Side, Judged = t.SignalToNoise >= 20, Number = new("delay", late + own, 0.1 * t.Rate / 48_000, f => f.Size ?? double.NaN) };
        }),
        new("scaled copy", "−12 to 0 dB", (t, c) => new([new CopiedMid(c.Unit() < 0.5 ? 0 : -c.Between(1, 12), c.Unit() < 0.3)], FindingKinds.ScaledCopy, FindingKinds.IdenticalChannels)),
        new("roles swapped", "the whole take", (t, c) => new([new SwappedRoles()], Found.RolesSwapped)),
        new("already decoded", "side level −6 to +3 dB", (t, c) => new([new AlreadyDecoded(c.Between(-6, 3))], Found.AlreadyDecoded)),
    ];
}
