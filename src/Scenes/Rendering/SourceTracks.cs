using Athwart.Quantities;
using Athwart.Scenes.Sources;
using Athwart.Scenes.Surroundings;

namespace Athwart.Scenes.Rendering;

/// <summary>What is known of a source from the geometry alone.</summary>
internal static class SourceTracks
{
    private const double StepSeconds = 0.02;

    public static SourceTruth Of(SoundSource source, WorkingTake take)
    {
        var scene = take.Scene;
        var mid = new SoundWay(source.Trajectory, MirrorImage.Itself, new(scene.Rig, ChannelRole.Mid), scene);
        var side = new SoundWay(source.Trajectory, MirrorImage.Itself, new(scene.Rig, ChannelRole.Side), scene);
        return new(source.Name, [.. source.Signal.Onsets.Select(Arrives)], [.. Track(mid, take)]);

        Arrival Arrives(double onset) =>
            new(take.Moved(mid.ArrivalOf(onset) * take.Rate), take.Moved(side.ArrivalOf(onset) * take.Rate), Azimuth(mid.Way(onset)));
    }

    private static IEnumerable<TrackPoint> Track(SoundWay way, WorkingTake take)
    {
        for (var seconds = 0.0; seconds < take.Scene.LengthSeconds; seconds += StepSeconds)
        {
            var from = way.Way(seconds - way.At(seconds).DelaySeconds);
            yield return new(take.Moved(seconds * take.Rate) / take.Rate, Azimuth(from), Math.Asin(from.Z / from.Length) * 180 / Math.PI, from.Length);
        }
    }

    private static double Azimuth(Place way) => Math.Atan2(way.Y, way.X) * 180 / Math.PI;
}
