using Athwart.Quantities;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rendering;

namespace Athwart.Scenes.Faults;

/// <summary>Single wrong samples.</summary>
/// <param name="AtFrames">The frames.</param>
/// <param name="Size">Added to each, away from zero half of the time; full-scale units.</param>
public sealed record Clicks(IReadOnlyList<int> AtFrames, double Size) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Recorded;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        foreach (var frame in AtFrames)
        {
            var signed = chance.Unit() < 0.5 ? -Size : Size;
            foreach (var role in WorkingTake.Roles(Role))
                take.Plane(role)[frame] += signed;
        }

        take.Items.Add(Spots.Item(FaultKinds.Clicks, Role, AtFrames, 1, Size, "full scale"));
    }
}

/// <summary>Runs of exact zeros.</summary>
/// <param name="AtFrames">Their first frames.</param>
/// <param name="Length">How many frames each.</param>
public sealed record Dropouts(IReadOnlyList<int> AtFrames, int Length) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Recorded;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        foreach (var frame in AtFrames)
        {
            foreach (var role in WorkingTake.Roles(Role))
                take.Stretch(role, frame, frame + Length).Clear();
        }

        take.Items.Add(Spots.Item(FaultKinds.Dropouts, Role, AtFrames, Length, Length, "frames"));
    }
}

/// <summary>A run of samples that all repeat the one before them, as of a converter or a link that stands still.</summary>
/// <param name="AtFrame">The first sample that is a repetition.</param>
/// <param name="Length">How many.</param>
public sealed record HeldValue(int AtFrame, int Length) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Recorded;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        foreach (var role in WorkingTake.Roles(Role))
            take.Plane(role).AsSpan(AtFrame, Length).Fill(take.Plane(role)[AtFrame - 1]);
        take.Items.Add(new() { Kind = FaultKinds.HeldValue, Role = Role, Range = FrameRange.FromFrames(AtFrame, AtFrame + Length), Size = Length, Unit = "frames" });
    }
}

/// <summary>A block that comes twice, in both roles.</summary>
/// <param name="AtFrame">Its first frame.</param>
/// <param name="Length">Frames.</param>
/// <param name="Overwrites">Whether the second copy stands in place of what followed, or pushes it back.</param>
public sealed record RepeatedBlock(int AtFrame, int Length, bool Overwrites = true) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Recorded;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        var second = AtFrame + Length;
        take.Replace(Twice(take.Mid, second), Twice(take.Side, second));
        if (!Overwrites)
            take.MoveTruth(second, Length);
        take.Items.Add(new() { Kind = FaultKinds.RepeatedBlock, Range = FrameRange.FromFrames(second, second + Length), Size = Length, Unit = "frames" });
    }

    private double[] Twice(double[] plane, int second) =>
        [.. plane[..second], .. plane[AtFrame..second], .. plane[(Overwrites ? second + Length : second)..]];
}

/// <summary>A block that is missing, in both roles.</summary>
/// <param name="AtFrame">Its first frame.</param>
/// <param name="Length">Frames.</param>
public sealed record MissingBlock(int AtFrame, int Length) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Recorded;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        take.Replace([.. take.Mid[..AtFrame], .. take.Mid[(AtFrame + Length)..]], [.. take.Side[..AtFrame], .. take.Side[(AtFrame + Length)..]]);
        take.MoveTruth(AtFrame, -Length);
        take.Items.Add(new() { Kind = FaultKinds.MissingBlock, Range = FrameRange.FromFrames(AtFrame, AtFrame), Size = Length, Unit = "frames" });
    }
}

/// <summary>The level steps from one frame to the next and stays.</summary>
/// <param name="AtFrame">The first frame at the new level.</param>
/// <param name="Decibels">The step.</param>
public sealed record LevelJump(int AtFrame, double Decibels) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Recorded;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        foreach (var role in WorkingTake.Roles(Role))
            Levels.Scale(take.Stretch(role, AtFrame, take.Frames), Levels.Ratio(Decibels));
        take.Items.Add(new() { Kind = FaultKinds.LevelJump, Role = Role, Range = FrameRange.FromFrames(AtFrame, take.Frames), Size = Decibels, Unit = "dB" });
    }
}

/// <summary>The recording stops before the sound does.</summary>
/// <param name="KeptSeconds">What is kept.</param>
public sealed record EarlyEnd(double KeptSeconds) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Recorded;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        var kept = Math.Clamp((int)Math.Round(KeptSeconds * take.Rate), 0, take.Frames);
        var missing = (take.Frames - kept) / (double)take.Rate;
        take.Replace(take.Mid[..kept], take.Side[..kept]);
        take.Items.Add(new() { Kind = FaultKinds.EarlyEnd, Range = FrameRange.FromFrames(kept, kept), Size = missing, Unit = "s" });
    }
}

/// <summary>Truth of faults at several places.</summary>
internal static class Spots
{
    public static TruthItem Item(string kind, ChannelRole? role, IReadOnlyList<int> frames, int length, double size, string unit) => new()
    {
        Kind = kind,
        Role = role,
        Range = FrameRange.FromFrames(frames.Min(), frames.Max() + length),
        Places = [.. frames.Order().Select(frame => FrameRange.FromFrames(frame, frame + length))],
        Size = size,
        Unit = unit,
    };
}
