namespace Athwart.Jobs.Demo;

/// <summary>Wood and iron that stick and slip: a train of small jerks that makes a heavy thing groan.</summary>
internal static class Scrape
{
    private static readonly (double Hertz, double Q, double Gain)[] Timber =
        [(118, 9, 0.9), (236, 14, 1), (415, 18, 0.9), (690, 22, 0.7), (1130, 26, 0.5), (1840, 30, 0.35), (2960, 26, 0.22), (4700, 18, 0.12)];

    /// <summary>The creak of a timber beam turning on its post.</summary>
    /// <param name="stage">Where; gives rate and chance.</param>
    /// <param name="seconds">How long.</param>
    /// <param name="jerksPerSecond">Pace of the jerks in the middle of a groan; a low pace rattles, a high one sings.</param>
    /// <param name="pitch">Factor on the timber's pitches.</param>
    public static double[] Creak(SoundStage stage, double seconds, double jerksPerSecond, double pitch)
    {
        var random = stage.Random.Branch();
        var jerks = Jerks(stage, seconds, jerksPerSecond, random);
        var creak = new double[jerks.Length];
        var drift = 0.0;
        foreach (var (hertz, q, gain) in Timber)
        {
            var filter = new StateVariableFilter(stage.Rate, hertz * pitch, q);
            for (var i = 0; i < jerks.Length; i++)
            {
                if (i % 256 == 0)
                {
                    drift += (random.White() - drift) * (256.0 * 1.5 / stage.Rate);
                    filter.Tune(hertz * pitch * (1 + (0.25 * drift)), q);
                }

                creak[i] += gain * filter.Step(jerks[i]);
            }
        }

        return creak;
    }

    private static double[] Jerks(SoundStage stage, double seconds, double jerksPerSecond, DemoRandom random)
    {
        var jerks = stage.Sound(seconds);
        var at = 0.0;
        while (at < seconds)
        {
            var groan = random.Between(0.35, 1.3);
            var (pace, bend) = (jerksPerSecond * random.Between(0.6, 1.5), random.Between(-0.5, 0.7));
            for (var within = 0.0; within < groan && at + within < seconds - 0.01;)
            {
                var along = within / groan;
                Jerk(jerks, stage.Frame(at + within), (0.25 + (0.75 * DemoMath.Hump(along, -0.15, 1.1))) * random.Between(0.5, 1), stage.Rate, random);
                within += random.Between(0.8, 1.25) / (pace * (1 + (bend * along)));
            }

            at += groan + random.Between(0.02, 0.5);
        }

        return jerks;
    }

    private static void Jerk(double[] jerks, int first, double strength, int rate, DemoRandom random)
    {
        var length = rate / 700;
        for (var i = 0; i < length && first + i < jerks.Length; i++)
        {
            var fade = 1 - ((double)i / length);
            jerks[first + i] += strength * fade * fade * (1 + (0.8 * random.White()));
        }
    }
}
