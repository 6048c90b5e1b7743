namespace Athwart.Jobs.Demo.Takes;

/// <summary>Take 2: the ground paddles are drawn and water rushes into the chamber from left to right, wide.</summary>
internal static class Sluice
{
    private static readonly Mode[] Pawl = [new(890, 0.03, 0.6), new(1740, 0.04, 1), new(2930, 0.03, 0.7), new(4480, 0.02, 0.5), new(6900, 0.012, 0.3)];
    private static readonly double[] Azimuths = [-74, -41, -6, 33, 69];

    public static DemoScene Build(ulong seed)
    {
        var scene = new DemoScene(new SoundStage(96000, 20, seed));
        var stage = scene.Stage;
        stage.AddDiffuse(0.004, 0.62);
        Paddle(scene);
        for (var i = 0; i < Azimuths.Length; i++)
        {
            // The middle sluice opens first; the outer ones follow.
            var start = 1.6 + (0.8 * Math.Abs(i - 2));
            var stream = Water.Stream(stage, t => Force(t, start), 130 + (23 * i), 1250 + (170 * i));
            stage.Place(stream, 0, Direction.At(Azimuths[i], 0.3), 0.12);
        }

        Water.Bubbles(stage, 1.8, 20, t => 240 * Force(t, 2), 240, (_, r) => Direction.At(r.Between(-80, 80)), 7, 0.32);
        stage.AddDiffuse(0.06, 0.9, t => Force(t, 2.4));
        new Surroundings(stage.Rate, 1.5, 2800, 1.1).AddTo(stage, 0.05);
        stage.Scale(DemoMath.Gain(-7));
        stage.AddSelfNoise(-97, -90);
        scene.Note("first water", 1.6, 3, -6, -6);
        scene.Note("full rush", 9.5, 9, 0, 0);
        return scene;
    }

    private static double Force(double t, double start) =>
        DemoMath.Rise(t, start, start + 7.5) * (0.9 + (0.1 * DemoMath.Sine(t * 0.31))) * (1 - (0.15 * DemoMath.Rise(t, 15, 20)));

    private static void Paddle(DemoScene scene)
    {
        var stage = scene.Stage;
        var random = stage.Random.Branch();
        for (var at = 0.5; at < 5.2; at += random.Between(0.2, 0.27))
        {
            var click = stage.Sound(0.3);
            Strike.Ring(click, 0, stage.Rate, random.Between(0.1, 0.2), Pawl);
            Strike.Puff(click, 0, stage.Rate, 0.08, 2500, 0.7, 0.004, random);
            stage.Place(click, stage.Frame(at), Direction.At(24), 0.4);
        }

        scene.Note("paddle drawn", 0.4, 4.9, 24, 24);
    }
}
