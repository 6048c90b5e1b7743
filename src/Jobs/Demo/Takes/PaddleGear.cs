namespace Athwart.Jobs.Demo.Takes;

/// <summary>Take 8: the paddle gear is wound up pawl by pawl, held, and let down with a run of the ratchet.</summary>
internal static class PaddleGear
{
    private static readonly Mode[] Pawl =
        [new(640, 0.035, 0.35), new(1180, 0.05, 0.8), new(1930, 0.06, 1), new(2870, 0.05, 0.75), new(4210, 0.035, 0.6), new(6050, 0.025, 0.4), new(8900, 0.014, 0.25), new(12700, 0.008, 0.15)];

    private static readonly Mode[] Frame = [new(96, 0.05, 1), new(171, 0.04, 0.7), new(302, 0.03, 0.4)];

    public static DemoScene Build(ulong seed)
    {
        var scene = new DemoScene(new SoundStage(48000, 12, seed));
        var stage = scene.Stage;
        stage.AddDiffuse(0.002, 0.62);
        Water.Laps(stage, 1.5, 0.02);
        Wind(scene);
        Drop(scene);
        new Surroundings(stage.Rate, 1.2, 3400, 0.9).AddTo(stage, 0.05);
        stage.Scale(DemoMath.Gain(-8));
        stage.AddSelfNoise(-96, -89);
        return scene;
    }

    private static void Wind(DemoScene scene)
    {
        var stage = scene.Stage;
        var random = stage.Random.Branch();
        stage.Place(Scrape.Creak(stage, 5.6, 9, 1.6).AsSpan(), stage.Frame(0.9), Direction.At(14, 0.05), 0.1);
        for (var at = 0.9; at < 6.4; at += random.Between(0.14, 0.19) + (0.12 * DemoMath.Hump(DemoMath.Cosine(at * 0.8), 0.2, 1.6)))
            Click(stage, random, stage.Frame(at), random.Between(0.35, 0.7), 12 + random.Between(-3, 3));
        scene.Note("wind up", 0.8, 5.9, 12);
    }

    private static void Drop(DemoScene scene)
    {
        var stage = scene.Stage;
        var random = stage.Random.Branch();
        var gap = 0.13;
        var at = 8.2;
        for (; at < 9.9; at += gap * random.Between(0.9, 1.1), gap = Math.Max(0.021, gap * 0.955))
            Click(stage, random, stage.Frame(at), random.Between(0.3, 0.75), 12 + random.Between(-3, 3));
        Click(stage, random, stage.Frame(at + 0.02), 1.6, 12);
        scene.Note("let down", 8.1, 2.8, 12);
    }

    private static void Click(SoundStage stage, DemoRandom random, int first, double gain, double azimuth)
    {
        var click = stage.Sound(0.7);
        var bend = random.Between(0.985, 1.015);
        Strike.Ring(click, 0, stage.Rate, 0.25 * gain, [.. Pawl.Select(m => m with { Hertz = m.Hertz * bend, Amplitude = m.Amplitude * random.Between(0.5, 1) })]);
        Strike.Ring(click, 0, stage.Rate, 0.35 * gain, Frame);
        Strike.Puff(click, 0, stage.Rate, 0.3 * gain, 3100, 0.6, 0.004, random);
        stage.Place(click, first, Direction.At(azimuth), 0.4);
    }
}
