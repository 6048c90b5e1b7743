using Athwart.Jobs.Directions;
using Athwart.Jobs.LineUp;
using Athwart.Metering.Direction;
using Athwart.Metering.Width;
using Athwart.Quantities;

namespace Athwart.Jobs.CheckTakes;

/// <summary>What is known of the side's polarity.</summary>
/// <param name="Known">Whether a line-up or the recordist has settled it.</param>
/// <param name="Words">A sentence.</param>
public sealed record PolarityDocument(bool Known, string Words)
{
    /// <summary>From the check of one take.</summary>
    public static PolarityDocument From(TakeCheck check)
    {
        ArgumentNullException.ThrowIfNull(check);
        if (check.Roles.SideChannel is null)
            return new(false, "There is no side.");
        if (check.Rig?.SideInverted is { } inverted)
            return new(true, $"By the line-up of {check.Rig.Measured ?? "the rig"} the side is {(inverted ? "inverted" : "upright")}.");
        return check.Roles.SideInverted
            ? new(true, "The side is turned over, as was said.")
            : new(false, "Whether left and right are the right way round cannot be known from this take: a line-up tells, or a sound of which you know where it was.");
    }
}

/// <summary>The rig's profile that was taken into account.</summary>
public sealed record RigUsedDocument(string? Rig, string? Measured, double? GainOffsetDecibels, double? DelayFrames, int? MidChannel, int? SideChannel, bool? SideInverted)
{
    /// <summary>From a profile.</summary>
    public static RigUsedDocument From(RigProfileDocument rig)
    {
        ArgumentNullException.ThrowIfNull(rig);
        return new(rig.Rig, rig.Measured, rig.GainOffsetDecibels.Value, rig.DelayFrames.Value, rig.MidChannel, rig.SideChannel, rig.SideInverted);
    }
}

/// <summary>Where the dominant sound was over time.</summary>
/// <param name="Words">A sentence or two.</param>
/// <param name="MidPattern">A of the mid that was taken.</param>
/// <param name="Columns">Evenly spaced over the take.</param>
public sealed record DirectionTrailDocument(string Words, double MidPattern, IReadOnlyList<DirectionColumnDocument> Columns)
{
    /// <summary>From a trail.</summary>
    public static DirectionTrailDocument From(DirectionTrail trail)
    {
        ArgumentNullException.ThrowIfNull(trail);
        double At(int column) => Math.Round((double)trail.FrameCount * column / trail.Columns / trail.SampleRateHertz, 3);
        return new(
            DirectionWords.Of(trail),
            trail.OmniShare,
            [.. Enumerable.Range(0, trail.Columns).Select(c => new DirectionColumnDocument(At(c), At(c + 1), Round(trail.Whole.AzimuthDegrees[c]), Round(trail.Whole.UncertaintyDegrees[c]), JsonNumber.Finite(trail.Whole.DirectShare[c], 3), Round(trail.Whole.LevelDecibelsFullScale[c])))]);
    }

    private static double? Round(float value) => JsonNumber.Finite(value, 1);
}

/// <summary>One stretch of a direction trail; the azimuth is null where nothing dominates.</summary>
public sealed record DirectionColumnDocument(double FromSeconds, double ToSeconds, double? AzimuthDegrees, double? UncertaintyDegrees, double? DirectShare, double? LevelDbfs);

/// <summary>A moment and what was measured in it.</summary>
public sealed record MomentDocument(double FromSeconds, double ToSeconds, double? Value);

/// <summary>One third octave in mono.</summary>
public sealed record MonoLossDocument(double Hertz, double? LossDecibels);

/// <summary>Width, lean and mono of the predicted decode.</summary>
public sealed record WidthDocument(
    IReadOnlyList<MomentDocument> WorstMoments,
    double? LeftMinusRightDecibels,
    MomentDocument? FurthestLeanDecibels,
    IReadOnlyList<MonoLossDocument> MonoLoss,
    double? SafeForMonoSideLevelDecibels,
    double? SafeForCorrelationSideLevelDecibels,
    double? WideFromSideLevelDecibels,
    string Words)
{
    /// <summary>From measures.</summary>
    public static WidthDocument From(WidthMeasures width, int rate)
    {
        ArgumentNullException.ThrowIfNull(width);
        MomentDocument Moment(WidthMoment m, int decimals) => new(Seconds(m.Range.From, rate), Seconds(m.Range.To, rate), JsonNumber.Finite(m.Value, decimals));
        return new(
            [.. width.WorstMoments.Select(m => Moment(m, 3))],
            JsonNumber.Finite(width.LeftMinusRight.Value, 2),
            width.FurthestLean is { } lean ? Moment(lean, 2) : null,
            [.. width.MonoLoss.Select(b => new MonoLossDocument(Math.Round(b.Hertz, 1), JsonNumber.Finite(b.LossDecibels, 2)))],
            JsonNumber.Finite(width.SafeForMono?.Value, 2),
            JsonNumber.Finite(width.SafeForCorrelation?.Value, 2),
            JsonNumber.Finite(width.WideFrom?.Value, 2),
            WidthWords.Of(width, rate));
    }

    private static double Seconds(FrameIndex frame, int rate) => Math.Round((double)frame.Value / rate, 3);
}
