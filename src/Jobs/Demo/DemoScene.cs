using Athwart.Quantities;

namespace Athwart.Jobs.Demo;

/// <summary>A take while it is made: the sound, and the truth about it.</summary>
internal sealed class DemoScene(SoundStage stage)
{
    public SoundStage Stage { get; } = stage;

    public List<DemoEvent> Events { get; } = [];

    public List<DemoFault> Faults { get; } = [];

    /// <summary>Notes an event that stays where it is and, unless told otherwise, is marked in the file.</summary>
    public void Note(string label, double from, double seconds, double azimuthDegrees, bool marked = true) =>
        Note(label, from, seconds, azimuthDegrees, azimuthDegrees, marked);

    /// <summary>Notes an event that moves.</summary>
    public void Note(string label, double from, double seconds, double fromDegrees, double toDegrees, bool marked = true) => Events.Add(new DemoEvent(
        label,
        FrameRange.FromFrames(Stage.Frame(from), Math.Min(Stage.Length, Stage.Frame(from + seconds))),
        new Degrees(fromDegrees),
        new Degrees(toDegrees),
        marked));

    /// <summary>Notes a fault that was planted.</summary>
    public void Plant(string kind, ChannelRole? role, FrameRange? range, double size, string unit, string description) =>
        Faults.Add(new DemoFault(kind, role, range, size, unit, description));
}
