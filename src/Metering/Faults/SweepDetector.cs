using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering.Faults;

/// <summary>Narrow lines that go evenly from one frequency to another, for a second and a half or more.</summary>
internal static class SweepDetector
{
    public static IEnumerable<Finding> Find(TakeMeasures m, FaultMeasures f)
    {
        if (f.Cross is not { } cross)
            yield break;
        var width = m.SampleRateHertz / (double)PairCross.Length;
        foreach (var (role, sweeps) in ((ChannelRole, IReadOnlyList<Sweep>)[])[(ChannelRole.Mid, cross.MidSweeps.Sweeps), (ChannelRole.Side, cross.SideSweeps.Sweeps)])
        {
            var told = sweeps.Where(s => (s.ToBlock - s.FromBlock) * (double)PairCross.Length / m.SampleRateHertz >= 1.5).OrderByDescending(s => s.Power).ToList();
            // Many at once are a voice, birds or a machine that runs up: the sound itself.
            if (told.Count > 6)
                continue;
            foreach (var sweep in told.Take(TakeDetectors.MostOfAKind).OrderBy(s => s.FromBlock))
                yield return Tell(role, sweep, width, m);
        }
    }

    private static Finding Tell(ChannelRole role, Sweep sweep, double width, TakeMeasures m)
    {
        var range = FrameRange.FromFrames(sweep.FromBlock * PairCross.Length, Math.Min((sweep.ToBlock + 1) * PairCross.Length, m.FrameCount.Value));
        var (from, to) = (sweep.FromBin * width, sweep.ToBin * width);
        var level = DecibelsFullScale.FromMeanSquare(sweep.Power / 8);
        return new()
        {
            Kind = FaultKinds.SweepingTone,
            Severity = FindingSeverity.Note,
            Role = role,
            Range = range,
            Size = from,
            SizeUnit = "Hz",
            Confidence = 0.7,
            Message = Text($"The {Name(role)} holds a line that moves evenly from {from:0} to {to:0} Hz, from {Time(range.From, m.SampleRateHertz)} on for {range.Length.At(m.SampleRateHertz).TotalSeconds:0.0} s, {level}: {(role == ChannelRole.Mid ? "in the middle, and in mono" : "wide, and gone in mono")}."),
            Remedy = "No narrow cut follows it; cut around it, and look for a converter or a motor that runs up nearby.",
            Evidence = [new("from", from, "Hz"), new("to", to, "Hz"), new("level", level.Value, "dBFS"), new("spectra that have it", sweep.Share, "")],
        };
    }
}
