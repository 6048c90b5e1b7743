using Athwart.Quantities;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rendering;

namespace Athwart.Scenes.Faults;

/// <summary>One thing that goes wrong, with a known size.</summary>
public abstract record Fault
{
    /// <summary>The role it befalls; null for both, each by itself where it is noise.</summary>
    public ChannelRole? Role { get; init; }

    /// <summary>When it starts, seconds of the take.</summary>
    public double FromSeconds { get; init; }

    /// <summary>When it ends; the end of the take when infinite.</summary>
    public double ToSeconds { get; init; } = double.PositiveInfinity;

    /// <summary>Where in the recording chain it acts.</summary>
    internal abstract FaultStage Stage { get; }

    /// <summary>Changes the scene before it is rendered.</summary>
    internal virtual Scene Prepare(Scene scene) => scene;

    /// <summary>Changes the take and records the truth.</summary>
    internal abstract void Apply(WorkingTake take, Chance chance);

    /// <summary>First frame and the one after the last, inside the take.</summary>
    internal (int From, int To) Frames(WorkingTake take)
    {
        var from = (int)Math.Clamp(Math.Round(FromSeconds * take.Rate), 0, take.Frames);
        return (from, (int)Math.Clamp(Math.Round(ToSeconds * take.Rate), from, take.Frames));
    }

    /// <summary>The truth over the fault's own stretch.</summary>
    internal TruthItem Item(WorkingTake take, string kind, double size, string unit)
    {
        var (from, to) = Frames(take);
        return new() { Kind = kind, Role = Role, Range = FrameRange.FromFrames(from, to), Size = size, Unit = unit };
    }

    /// <summary>Whether the fault is about the whole take; then it also acts on what is kept beyond its ends.</summary>
    internal bool IsWhole(WorkingTake take) => Frames(take) == (0, take.Frames);

    /// <summary>The samples of the fault's stretch; of the whole plane with its margins when it is about the whole take.</summary>
    internal Span<double> Samples(WorkingTake take, ChannelRole role)
    {
        var (from, to) = Frames(take);
        return IsWhole(take) ? take.Plane(role) : take.Stretch(role, from, to);
    }
}

/// <summary>Places in the recording chain, in order.</summary>
internal enum FaultStage
{
    /// <summary>Sources as heard, before surroundings.</summary>
    Sources,

    /// <summary>Pressure at the capsules, pascal.</summary>
    Pressure,

    /// <summary>Setting the gain, in full-scale units.</summary>
    Gain,

    /// <summary>Voltage at the input, in full-scale units after its gain.</summary>
    Electrical,

    /// <summary>Between the input's limit and the converter.</summary>
    BeforeConverter,

    /// <summary>Words on the card.</summary>
    Recorded,
}
