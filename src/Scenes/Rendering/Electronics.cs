using Athwart.Quantities;
using Athwart.Scenes.Faults;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rigs;

namespace Athwart.Scenes.Rendering;

/// <summary>Microphones, inputs and converter.</summary>
internal sealed class Electronics(WorkingTake take)
{
    private readonly Rig _rig = take.Scene.Rig;

    /// <summary>From pressure to full-scale units: low end, the microphone's own limit, noise, gain.</summary>
    public void Capture(ChannelRole role)
    {
        var (plane, channel) = (take.Plane(role), _rig.Channel(role));
        if (channel.LowCornerHertz > 0)
            new FilterChain(FilterDesigns.High(channel.LowCornerHertz, take.Rate, channel.LowCornerOrder)).Run(plane);
        if (double.IsFinite(channel.MaximumDecibels))
            LimitMicrophone(role, plane, channel);
        AddNoise(plane, channel.EquivalentNoiseDecibels, take.Chance("self-noise", (int)role));
        Levels.Scale(plane, _rig.FullScalePerPascal(role));
    }

    /// <summary>The input's limit and what follows it before the converter.</summary>
    public void PassInput(ChannelRole role)
    {
        var plane = take.Plane(role);
        var limit = InputLimit(role);
        if (limit < double.PositiveInfinity)
            Clip(take, role, limit, FaultKinds.FlatTops);
        if (_rig.ConverterCornerHertz > 0)
            new FilterChain(FilterDesigns.High1(_rig.ConverterCornerHertz, take.Rate)).Run(plane);
    }

    /// <summary>Where the input clips, in full-scale units after its gain.</summary>
    public double InputLimit(ChannelRole role) =>
        _rig.InputMaximumVolts * Levels.Ratio(_rig.Channel(role).GainDecibels) / _rig.FullScaleVolts;

    /// <summary>Rounds to the word; integers stop at full scale. The first time, what goes beyond is reported.</summary>
    public void Convert(ChannelRole role, bool report)
    {
        var plane = take.Plane(role);
        var full = _rig.Word == SampleWord.Bits16 ? 32768.0 : 8388608.0;
        var peak = Levels.Peak(plane);
        foreach (ref var sample in plane.AsSpan())
        {
            sample = _rig.Word == SampleWord.Floating
                ? (float)sample
                : Math.Clamp(Math.Round(sample * full), -full, full - 1) / full;
        }

        if (report && peak > 1)
            Report(take, role, _rig.Word == SampleWord.Floating ? FaultKinds.FloatOvers : FaultKinds.FullScale, Runs.Of(plane, AtLimit), peak, 1);

        bool AtLimit(double sample) => _rig.Word == SampleWord.Floating ? Math.Abs(sample) > 1 : sample == -1 || sample == (full - 1) / full;
    }

    /// <summary>Reports what goes beyond a limit and clips it.</summary>
    public static void Clip(WorkingTake take, ChannelRole role, double limit, string kind)
    {
        ReportOver(take, role, limit, kind);
        foreach (ref var sample in take.Plane(role).AsSpan())
            sample = Math.Clamp(sample, -limit, limit);
    }

    private void AddNoise(double[] plane, double decibelsA, Chance chance)
    {
        if (double.IsNegativeInfinity(decibelsA))
            return;
        var rms = Levels.Pascal(decibelsA) / Math.Sqrt(Levels.AWeightedWhitePower(take.Rate));
        foreach (ref var sample in plane.AsSpan())
            sample += rms * chance.Normal();
    }

    private void LimitMicrophone(ChannelRole role, double[] plane, RigChannel channel)
    {
        var limit = Levels.Pascal(channel.MaximumDecibels);
        ReportOver(take, role, limit, FaultKinds.FlatTops, _rig.FullScalePerPascal(role));
        foreach (ref var sample in plane.AsSpan())
            sample = channel.ClipsSoftly ? Soft(sample / limit) * limit : Math.Clamp(sample, -limit, limit);
    }

    // Straight to one half, then half·tanh: value and slope go over smoothly.
    private static double Soft(double x) => Math.Abs(x) <= 0.5 ? x : Math.Sign(x) * (0.5 + (0.5 * Math.Tanh((Math.Abs(x) - 0.5) / 0.5)));

    private static void ReportOver(WorkingTake take, ChannelRole role, double limit, string kind, double unitFullScale = 1)
    {
        var inside = take.Plane(role).AsSpan(take.Lead, take.Frames);
        if (Levels.Peak(inside) is var peak && peak > limit)
            Report(take, role, kind, Runs.Of(inside, sample => Math.Abs(sample) >= limit), peak / limit, limit * unitFullScale);
    }

    private static void Report(WorkingTake take, ChannelRole role, string kind, List<FrameRange> runs, double excess, double limit) => take.Items.Add(new()
    {
        Kind = kind,
        Role = role,
        Range = new(runs[0].From, runs[^1].To),
        Places = runs,
        Size = Levels.Decibels(excess),
        Unit = "dB",
        Details =
        [
            new("samples beyond", runs.Sum(run => run.Length.Value), "frames"),
            new("longest run", runs.Max(run => run.Length.Value), "frames"),
            new("limit", Levels.Decibels(limit), "dBFS"),
        ],
    });
}
