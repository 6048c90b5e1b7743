using Athwart.Quantities;
using Athwart.Scenes.Numbers;

namespace Athwart.Scenes.Rendering;

/// <summary>A take on its way through the recording chain.</summary>
/// <remarks>Until the converter the planes are longer by <see cref="Lead"/> frames at each end, so that delays and filters have something to work on.</remarks>
internal sealed class WorkingTake
{
    private readonly Chance _chance;

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

    /// <summary>The samples of a stretch given in frames of the take.</summary>
    public Span<double> Stretch(ChannelRole role, int from, int to) => Plane(role).AsSpan(Lead + from, to - from);

    /// <summary>Drops what was kept at both ends.</summary>
    public void Crop()
    {
        (Mid, Side) = (Mid[Lead..^Lead], Side[Lead..^Lead]);
        Lead = 0;
    }

    /// <summary>Takes new planes of another length, after <see cref="Crop"/>.</summary>
    public void Replace(double[] mid, double[] side)
    {
        (Mid, Side, Frames) = (mid, side, mid.Length);
    }
}
