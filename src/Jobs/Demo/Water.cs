namespace Athwart.Jobs.Demo;

/// <summary>Water: single bubbles, laps against a wall, and rushing streams.</summary>
internal static class Water
{
    /// <summary>
    /// Scatters bubbles over a stretch. A bubble of radius r metres rings at 3/r hertz and dies at 0.13/r + 0.0072·r^(−3/2)
    /// per second; rising ones climb in pitch.
    /// </summary>
    /// <remarks>Source: K. van den Doel, physically based liquid sounds (2005), figures from memory.</remarks>
    /// <param name="stage">Where.</param>
    /// <param name="from">First second.</param>
    /// <param name="to">Last second.</param>
    /// <param name="density">Bubbles a second, as a function of the take's seconds.</param>
    /// <param name="most">The highest density that function gives.</param>
    /// <param name="direction">Where a bubble sounds from: given the second and chance.</param>
    /// <param name="largestMillimetres">Largest radius; the smallest is a sixth of it.</param>
    /// <param name="gain">Amplitude of the largest.</param>
    public static void Bubbles(SoundStage stage, double from, double to, Func<double, double> density, double most,
        Func<double, DemoRandom, Direction> direction, double largestMillimetres, double gain)
    {
        var random = stage.Random.Branch();
        var count = (int)((to - from) * most);
        for (var i = 0; i < count; i++)
        {
            var at = random.Between(from, to);
            var radius = random.Ratio(largestMillimetres / 6, largestMillimetres) / 1000;
            var strength = gain * random.Ratio(0.1, 1) * radius * 1000 / largestMillimetres;
            var climb = random.Unit() < 0.4 ? random.Between(0.02, 0.12) : 0;
            if (random.Unit() * most < density(at))
                stage.Place(Bubble(stage.Rate, radius, strength, climb), stage.Frame(at), direction(at, random), 0.3);
        }
    }

    /// <summary>Water slapping a wall: soft puffs of low noise with a tail of drips, one every second or so.</summary>
    public static void Laps(SoundStage stage, double everySeconds, double gain)
    {
        var random = stage.Random.Branch();
        for (var at = 0.1; at < (double)stage.Length / stage.Rate; at += everySeconds * random.Between(0.5, 1.5))
        {
            var azimuth = random.Between(-80, 80);
            var lap = stage.Sound(0.9);
            Surge(lap, stage.Rate, gain * random.Between(0.4, 1), random.Between(280, 700), 0, random.Between(0.35, 0.85), random);
            stage.Place(lap, stage.Frame(at), Direction.At(azimuth), 0.25);
            var start = at + 0.25;
            Bubbles(stage, start, start + 0.5, _ => 26, 26, (_, r) => Direction.At(azimuth + r.Between(-12, 12)), 4.5, gain * 1.6);
        }
    }

    /// <summary>Adds a swell of noise around a pitch, rising and falling between two seconds of the target.</summary>
    public static void Surge(Span<double> target, int rate, double gain, double hertz, double from, double to, DemoRandom random)
    {
        var filter = new StateVariableFilter(rate, hertz, 0.9);
        for (var i = (int)(from * rate); i < Math.Min(target.Length, (int)(to * rate)); i++)
        {
            if (i % 64 == 0)
                filter.Tune(hertz * (0.8 + (0.5 * DemoMath.Hump((double)i / rate, from, to))), 0.9);
            target[i] += gain * DemoMath.Hump((double)i / rate, from, to) * filter.Step(random.White());
        }
    }

    /// <summary>A stream: noise whose brightness and force follow <paramref name="force"/> (0 to 1), with eddies a few times a second.</summary>
    public static double[] Stream(SoundStage stage, Func<double, double> force, double deepHertz, double brightHertz)
    {
        var random = stage.Random.Branch();
        var eddies = stage.Random.Branch();
        var sound = new double[stage.Length];
        var deep = new StateVariableFilter(stage.Rate, deepHertz, 0.8);
        var body = new StateVariableFilter(stage.Rate, brightHertz, 0.6);
        var spray = new StateVariableFilter(stage.Rate, 7000, 0.5);
        var (eddy, flutter, strength) = (0.0, 0.0, 0.0);
        for (var i = 0; i < sound.Length; i++)
        {
            if (i % 64 == 0)
            {
                eddy += (eddies.White() - eddy) * (64.0 * 9 / stage.Rate);
                flutter += (eddies.White() - flutter) * (64.0 * 60 / stage.Rate);
                strength = force((double)i / stage.Rate);
                body.Tune(brightHertz * (0.15 + strength) * Math.Clamp(1 + (2.2 * eddy) + (0.5 * flutter), 0.4, 2), 0.6);
            }

            var white = random.White();
            var churn = Math.Max(0.15, 1 + (2.8 * eddy) + (0.7 * flutter));
            spray.Step(white);
            sound[i] = strength * ((churn * (body.Step(white) + (0.9 * deep.Step(white)))) + (0.22 * strength * strength * spray.Low * churn));
        }

        return sound;
    }

    private static double[] Bubble(int rate, double radius, double strength, double climb)
    {
        var hertz = 3 / radius;
        var damping = (0.13 / radius) + (0.0072 / (radius * Math.Sqrt(radius)));
        var sound = new double[(int)(Math.Min(0.12, 6.5 / damping) * rate)];
        var keep = DemoMath.Decay(1 / damping, rate);
        var (turns, level, step) = (0.0, strength, hertz / rate);
        var bend = 1 + (climb * damping / rate);
        for (var i = 0; i < sound.Length; i++)
        {
            sound[i] = level * DemoMath.Sine(turns) * Math.Min(1, i * 1200.0 / rate);
            turns += step;
            step *= bend;
            level *= keep;
        }

        return sound;
    }
}
