using Athwart.Quantities;

namespace Athwart.Jobs.Demo.Takes;

/// <summary>Take 1: two leaves of the lower gate swing shut, creaking, and meet with a boom that is too loud for the mid.</summary>
internal static class LockGates
{
    private const double BoomAt = 8.6;
    private static readonly Mode[] Leaf =
        [new(38, 0.42, 1), new(57, 0.36, 0.8), new(83, 0.27, 0.75), new(121, 0.2, 0.5), new(177, 0.13, 0.35), new(264, 0.08, 0.25), new(431, 0.05, 0.16), new(760, 0.03, 0.1)];

    private static readonly Mode[] Chain =
        [new(1310, 0.12, 0.5), new(2174, 0.16, 0.8), new(3427, 0.11, 0.7), new(5210, 0.07, 0.5), new(7790, 0.05, 0.3), new(11800, 0.03, 0.2)];

    public static DemoScene Build(ulong seed)
    {
        var scene = new DemoScene(new SoundStage(96000, 14, seed));
        var stage = scene.Stage;
        stage.AddDiffuse(0.004, 0.62);
        Water.Laps(stage, 1.1, 0.09);
        Swing(scene, "left leaf creaks", 1.0, 6.9, 26, 1, 58, 9);
        Swing(scene, "right leaf creaks", 2.3, 6.0, 17, 0.81, -52, -7);
        Boom(scene);
        Slosh(stage);
        Clanks(scene);
        new Surroundings(stage.Rate, 1.7, 3200, 1).AddTo(stage, 0.06);
        stage.Scale(DemoMath.Gain(1.2));
        stage.AddSelfNoise(-97, -90);
        Overload(scene);
        return scene;
    }

    private static void Swing(DemoScene scene, string label, double at, double seconds, double pace, double pitch, double from, double to)
    {
        var creak = Scrape.Creak(scene.Stage, seconds, pace, pitch);
        var groan = scene.Stage.Sound(seconds);
        Water.Surge(groan, scene.Stage.Rate, 0.08, 140, 0, seconds, scene.Stage.Random.Branch());
        for (var i = 0; i < creak.Length; i++)
            creak[i] = (1.5 * creak[i] * DemoMath.Rise(i, 0, scene.Stage.Rate)) + groan[i];
        Direction Path(double t) => Direction.At(from + ((to - from) * DemoMath.Rise(t, at, at + seconds)), 1);
        scene.Stage.PlaceMoving(creak, scene.Stage.Frame(at), Path, 0.35);
        scene.Note(label, at, seconds, from, to);
    }

    private static void Boom(DemoScene scene)
    {
        var stage = scene.Stage;
        var random = stage.Random.Branch();
        foreach (var (delay, gain, azimuth) in new[] { (0.0, 1.0, 3.0), (0.13, 0.22, -5.0), (0.41, 0.3, 2.0) })
        {
            var boom = stage.Sound(3.2);
            Strike.Ring(boom, 0, stage.Rate, gain * 1.1, Leaf);
            Strike.Puff(boom, 0, stage.Rate, gain * 1.3, 210, 0.7, 0.045, random);
            Strike.Puff(boom, 0, stage.Rate, gain * 0.5, 1900, 0.6, 0.012, random);
            stage.Place(boom, stage.Frame(BoomAt + delay), Direction.At(azimuth), 0.5);
        }

        scene.Note("gate boom", BoomAt, 2.6, 3, 3);
    }

    private static void Slosh(SoundStage stage)
    {
        double Force(double t) => DemoMath.Rise(t, BoomAt + 0.1, BoomAt + 0.9) * (1 - DemoMath.Rise(t, BoomAt + 1, BoomAt + 4.6));
        foreach (var azimuth in new[] { -45.0, 8, 62 })
            stage.Place(Water.Stream(stage, t => 0.16 * Force(t), 190, 1500), 0, Direction.At(azimuth), 0.2);
        Water.Bubbles(stage, BoomAt + 0.2, 14, t => 110 * Force(t), 110, (_, r) => Direction.At(r.Between(-70, 70)), 6, 0.16);
    }

    private static void Clanks(DemoScene scene)
    {
        var stage = scene.Stage;
        var random = stage.Random.Branch();
        foreach (var (at, gain) in new[] { (11.45, 1.0), (11.62, 0.45), (11.71, 0.6), (11.93, 0.2) })
        {
            var clank = stage.Sound(1.2);
            Strike.Ring(clank, 0, stage.Rate, gain * 0.09, Chain);
            Strike.Puff(clank, 0, stage.Rate, gain * 0.06, 4200, 0.8, 0.006, random);
            stage.Place(clank, stage.Frame(at), Direction.At(-38), 0.4);
        }

        scene.Note("chain", 11.4, 1.4, -38, -38);
    }

    /// <summary>Cuts the mid off at full scale, as a converter does, and notes where.</summary>
    private static void Overload(DemoScene scene)
    {
        var mid = scene.Stage.Mid;
        var (first, last, count) = (-1, -1, 0);
        for (var i = 0; i < mid.Length; i++)
        {
            if (Math.Abs(mid[i]) < 1)
                continue;
            mid[i] = mid[i] < 0 ? -1 : 1;
            first = first < 0 ? i : first;
            last = i;
            count++;
        }

        scene.Plant("full-scale-run", ChannelRole.Mid, FrameRange.FromFrames(first, last + 1), count, "frames", "The gate boom drives the mid to full scale.");
    }
}
