namespace Athwart.Jobs.Demo.Takes;

/// <summary>Take 5: someone walks along the gravel of the towpath from right to left; every step stands alone.</summary>
internal static class Footsteps
{
    private const double AheadMetres = 2.4;

    public static DemoScene Build(ulong seed)
    {
        var scene = new DemoScene(new SoundStage(96000, 12.5, seed));
        var stage = scene.Stage;
        var random = stage.Random.Branch();
        stage.AddDiffuse(0.0012, 0.6);
        var number = 1;
        for (var at = 0.9; at < 11.6; at += 0.78 + random.Between(-0.025, 0.025), number++)
        {
            var left = -5.2 + (10.4 * (at - 0.9) / 10.7);
            var direction = Direction.Passing(left, AheadMetres);
            stage.Place(Step(stage, random, (number & 1) == 0), stage.Frame(at), direction, 0.1);
            var azimuth = Math.Round(Math.Atan2(left, AheadMetres) * 180 / Math.PI, 3);
            scene.Note(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"step {number}"), at - 0.03, 0.5, azimuth);
        }

        new Surroundings(stage.Rate, 0.35, 2500, 0.6).AddTo(stage, 0.03);
        stage.Scale(DemoMath.Gain(-9));
        stage.AddSelfNoise(-96, -89);
        return scene;
    }

    /// <summary>Heel, roll and toe: a dull thump and a few hundred grains that shift under the sole.</summary>
    private static double[] Step(SoundStage stage, DemoRandom random, bool otherFoot)
    {
        var step = stage.Sound(0.6);
        var weight = otherFoot ? 0.86 : 1;
        Strike.Ring(step, 0, stage.Rate, 0.3 * weight, [new(74 * random.Between(0.9, 1.1), 0.022, 1), new(139, 0.014, 0.6), new(233, 0.009, 0.4)]);
        Strike.Puff(step, 0, stage.Rate, 0.16 * weight, 420, 0.7, 0.014, random);
        Grains(step, stage.Rate, random, 0.0, 0.11, 150, 0.2 * weight);
        Grains(step, stage.Rate, random, 0.08, 0.2, 70, 0.08 * weight);
        Grains(step, stage.Rate, random, 0.17, 0.34, 170, 0.15 * weight);
        return step;
    }

    private static void Grains(double[] step, int rate, DemoRandom random, double from, double to, int count, double gain)
    {
        for (var i = 0; i < count; i++)
        {
            // Most grains move early, and big ones are rare.
            var along = random.Unit() * random.Unit();
            var at = (int)((from + ((to - from) * along)) * rate);
            var size = random.Unit();
            var hertz = 1300 + (6500 * size) + random.Between(0, 2500);
            Strike.Puff(step, at, rate, gain * random.Ratio(0.08, 1) * (1.2 - size), hertz, random.Between(1.2, 3), random.Between(0.0006, 0.0028), random);
        }
    }
}
