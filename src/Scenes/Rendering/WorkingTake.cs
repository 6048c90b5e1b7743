using Athwart.Quantities;
using Athwart.Scenes.Numbers;

namespace Athwart.Scenes.Rendering;

/// <summary>A take on its way through the recording chain.</summary>
/// <remarks>Until the converter the planes are longer by <see cref="Lead"/> frames at each end, so that delays and filters have something to work on.</remarks>
internal sealed class WorkingTake
{
    private readonly Chance _chance;
    private readonly List<(int At, int By)> _moves = [];

    public WorkingTake(Scene scene)
    {
        Scene = scene;
        _chance = new(scene.Seed);
        Lead = Math.Max(4096, scene.SampleRateHertz / 8);
        Frames = scene.Frames;
        Mid = new double[Frames + (2 * Lead)];
        Side = new double[Frames + (2 * Lead)];
    }

    public Scene Scene { get; }

    public int Rate => Scene.SampleRateHertz;

    /// <summary>Frames before frame 0 and after the last, while they are kept.</summary>
    public int Lead { get; private set; }

    public int Frames { get; private set; }

    public double[] Mid { get; set; }

    public double[] Side { get; set; }

    public List<TruthItem> Items { get; } = [];

    public double[] Plane(ChannelRole role) => role == ChannelRole.Side ? Side : Mid;

    /// <summary>The planes a fault is about: both when it names no role.</summary>
    public static IEnumerable<ChannelRole> Roles(ChannelRole? role) => role is { } one ? [one] : [ChannelRole.Mid, ChannelRole.Side];

    public Chance Chance(string name, int number = 0) => _chance.Fork(name, number);

    /// <summary>What faults of the gain did to the side against the mid over the whole take, dB.</summary>
    public double SideGainChange { get; private set; }

    /// <summary>Changes the gain of a role for the whole take.</summary>
    public void Amplify(ChannelRole role, double factor)
    {
        Levels.Scale(Plane(role), factor);
        SideGainChange += Levels.Decibels(factor) * (role == ChannelRole.Side ? 1 : -1);
    }

    /// <summary>The samples of a stretch given in frames of the take.</summary>
    public Span<double> Stretch(ChannelRole role, int from, int to) => Plane(role).AsSpan(Lead + from, to - from);

    /// <summary>Drops what was kept at both ends.</summary>
    public void Crop()
    {
        (Mid, Side) = (Mid[Lead..^Lead], Side[Lead..^Lead]);
        Lead = 0;
    }

    /// <summary>What comes at or after a frame moves by so many frames; earlier when negative.</summary>
    public void MoveTruth(int at, int by)
    {
        _moves.Add((at, by));
        for (var i = 0; i < Items.Count; i++)
            Items[i] = Items[i] with { Range = Moved(Items[i].Range, at, by), Places = [.. Items[i].Places.Select(place => Moved(place, at, by))] };
    }

    /// <summary>Where a moment of the scene is in the finished take, in frames.</summary>
    public double Moved(double frame) => _moves.Aggregate(frame, (moved, move) => Moved(moved, move.At, move.By));

    /// <summary>The truth, no item of which goes beyond the end.</summary>
    public IEnumerable<TruthItem> FinishedItems() =>
        Items.Select(item => item with { Range = Inside(item.Range), Places = [.. item.Places.Select(Inside).Where((place, i) => place.Length.Value > 0 || item.Places[i].Length.Value == 0)] });

    /// <summary>Takes new planes of another length, after <see cref="Crop"/>.</summary>
    public void Replace(double[] mid, double[] side)
    {
        (Mid, Side, Frames) = (mid, side, mid.Length);
    }

    private static double Moved(double frame, int at, int by) => frame < at ? frame : Math.Max(frame + by, at);

    private static FrameRange Moved(FrameRange range, int at, int by) =>
        FrameRange.FromFrames((long)Moved(range.From.Value, at, by), range.Length.Value == 0 ? (long)Moved(range.From.Value, at, by) : (long)Math.Max(Moved(range.From.Value, at, by), Moved(range.To.Value - 1, at, by) + 1));

    private FrameRange Inside(FrameRange range) =>
        FrameRange.FromFrames(Math.Min(range.From.Value, Frames), Math.Min(range.To.Value, Frames));
}
