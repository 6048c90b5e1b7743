using Athwart.Quantities;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rendering;

namespace Athwart.Scenes.Faults;

/// <summary>The gain is set so that the loudest moment of the stretch goes beyond full scale; integers clip there, floats go on.</summary>
/// <param name="ExcessDecibels">How far beyond; a negative number leaves that much headroom and is no fault. Set before hum, noise and the like are added.</param>
/// <remarks>Both roles share one gain when none is named. The truth comes from the converter: kind full-scale or float-overs, with the runs.</remarks>
public sealed record Overload(double ExcessDecibels) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Gain;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        var (from, to) = Frames(take);
        var peak = WorkingTake.Roles(Role).Max(role => Levels.Peak(take.Stretch(role, from, to)));
        if (peak == 0)
            return;
        foreach (var role in WorkingTake.Roles(Role))
            take.Amplify(role, Levels.Ratio(ExcessDecibels) / peak);
    }
}

/// <summary>The input clips before the converter, so that the tops are flat below full scale.</summary>
/// <param name="LimitDecibelsFullScale">Where the tops are, dBFS of the peak; below 0.</param>
/// <param name="ExcessDecibels">How far the loudest moment of the stretch would have gone beyond.</param>
/// <remarks>Both roles share one gain when none is named. Electrical faults listed before it are part of what is clipped, and of what is scaled.</remarks>
public sealed record ClippedInput(double LimitDecibelsFullScale, double ExcessDecibels) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Electrical;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        var (from, to) = Frames(take);
        var limit = Levels.Ratio(LimitDecibelsFullScale);
        var peak = WorkingTake.Roles(Role).Max(role => Levels.Peak(take.Stretch(role, from, to)));
        if (peak == 0)
            return;
        foreach (var role in WorkingTake.Roles(Role))
        {
            take.Amplify(role, limit * Levels.Ratio(ExcessDecibels) / peak);
            Electronics.Clip(take, role, limit, FaultKinds.FlatTops);
        }
    }
}

/// <summary>Mid and side stay below full scale, but left or right = mid ± side goes beyond.</summary>
/// <param name="ExcessDecibels">How far; less when a role would clip itself, which the truth then says.</param>
public sealed record DecodedOverload(double ExcessDecibels) : Fault
{
    private const double Headroom = 0.99;

    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Gain;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        var (alone, decoded) = Peaks(take);
        if (decoded == 0)
            return;
        var scale = Math.Min(Levels.Ratio(ExcessDecibels) / decoded, Headroom / alone);
        Levels.Scale(take.Mid, scale);
        Levels.Scale(take.Side, scale);
        if (scale * decoded <= 1)
            return;
        take.Items.Add(Item(take, FaultKinds.DecodedOverload, Levels.Decibels(scale * decoded), "dBFS") with { Range = FrameRange.FromFrames(0, take.Frames) });
    }

    private static (double Alone, double Decoded) Peaks(WorkingTake take)
    {
        double alone = 0, decoded = 0;
        for (var i = take.Lead; i < take.Lead + take.Frames; i++)
        {
            alone = Math.Max(alone, Math.Max(Math.Abs(take.Mid[i]), Math.Abs(take.Side[i])));
            decoded = Math.Max(decoded, Math.Abs(take.Mid[i]) + Math.Abs(take.Side[i]));
        }

        return (alone, decoded);
    }
}

/// <summary>A constant added before the converter.</summary>
/// <param name="Offset">Full-scale units.</param>
public sealed record DcOffset(double Offset) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.BeforeConverter;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        foreach (var role in WorkingTake.Roles(Role))
        {
            foreach (ref var sample in Samples(take, role))
                sample += Offset;
        }

        take.Items.Add(Item(take, FaultKinds.DcOffset, Offset, "full scale"));
    }
}

/// <summary>The sound was recorded at a lower rate and brought to the file's: nothing above half of that rate but the last word's rounding.</summary>
/// <param name="SourceRateHertz">The lower rate.</param>
public sealed record LowRateSource(double SourceRateHertz) : Fault
{
    private const double PassPart = 0.4535;
    private const double StopPart = 0.5;
    private const double AttenuationDecibels = 100;

    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.BeforeConverter;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        var cut = (PassPart + StopPart) / 2 * SourceRateHertz;
        var filter = new LinearPhaseLowPass(cut, (StopPart - PassPart) * SourceRateHertz, AttenuationDecibels, take.Rate);
        (take.Mid, take.Side) = (filter.Run(take.Mid), filter.Run(take.Side));
        take.Items.Add(Item(take, FaultKinds.LowRateSource, SourceRateHertz, "Hz") with { Range = FrameRange.FromFrames(0, take.Frames), Details = [new("highest", PassPart * SourceRateHertz, "Hz")] });
    }
}
