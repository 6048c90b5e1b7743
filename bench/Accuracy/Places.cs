using Athwart.Quantities;
using Athwart.Scenes.Numbers;

namespace Athwart.Accuracy;

/// <summary>Where in a take a short fault is heard.</summary>
internal static class Places
{
    /// <summary>Root mean square of 20 ms around a frame.</summary>
    public static double Level(BaseTake take, ChannelRole role, int frame)
    {
        var half = take.Rate / 100;
        var (from, to) = (Math.Max(0, frame - half), Math.Min(take.Frames, frame + half));
        return Levels.Rms(take.Plane(role).AsSpan(from, to - from));
    }

    /// <summary>The levels of 20 ms below which a tenth lies and which none goes beyond, up to a frame.</summary>
    public static (double Quiet, double Loud) QuietAndLoud(BaseTake take, ChannelRole role, int end)
    {
        var hop = take.Rate / 50;
        var levels = Enumerable.Range(0, end / hop).Select(i => Levels.Decibels(Levels.Rms(take.Plane(role).AsSpan(i * hop, hop)))).Order().ToList();
        return (levels[levels.Count / 10], levels[^1]);
    }

    /// <summary>A frame half a second and more inside where both roles are above a level; null when a hundred draws find none.</summary>
    public static int? Sounding(BaseTake take, Chance chance, double decibels, int room)
    {
        for (var i = 0; i < 100; i++)
        {
            var frame = (int)chance.Between(take.Rate / 2.0, take.Frames - (take.Rate / 2.0) - room);
            if (frame > 0 && Levels.Decibels(Math.Min(Level(take, ChannelRole.Mid, frame), Level(take, ChannelRole.Side, frame))) > decibels)
                return frame;
        }

        return null;
    }

    /// <summary>A frame from which leaving out so many frames gives a tick: the jump's fourth difference stands 20 dB out of the loudest within 20 ms, in both roles.</summary>
    public static int? Tick(BaseTake take, Chance chance, int length)
    {
        for (var i = 0; i < 60; i++)
        {
            var frame = (int)chance.Between(take.Rate / 2.0, take.Frames - (take.Rate / 2.0) - length);
            if (frame > 0 && Stands(take.Mid, frame, length, take.Rate) && Stands(take.Side, frame, length, take.Rate))
                return frame;
        }

        return null;
    }

    private static bool Stands(double[] plane, int frame, int length, int rate)
    {
        var (around, reach) = (0.0, rate / 50);
        for (var i = Math.Max(4, frame - reach); i < frame - 2; i++)
            around = Math.Max(around, Bend(plane.AsSpan(i - 4, 5)));
        for (var i = frame + length; i < Math.Min(plane.Length - 4, frame + length + reach); i++)
            around = Math.Max(around, Bend(plane.AsSpan(i, 5)));
        Span<double> joint = [plane[frame - 3], plane[frame - 2], plane[frame - 1], plane[frame + length], plane[frame + length + 1]];
        // 24 bits have steps of 1.2e-7.
        return Bend(joint) > 10 * Math.Max(around, 1e-6);
    }

    private static double Bend(ReadOnlySpan<double> x) => Math.Abs(x[0] - (4 * x[1]) + (6 * x[2]) - (4 * x[3]) + x[4]);
}
