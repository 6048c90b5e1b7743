namespace Athwart.Jobs.Demo.Takes;

/// <summary>Take 6: nothing happens at the lock: a far weir, leaves, birds, and a bat out early whose calls lie above hearing.</summary>
internal static class LockAmbience
{
    public static DemoScene Build(ulong seed)
    {
        var scene = new DemoScene(new SoundStage(96000, 18, seed));
        var stage = scene.Stage;
        stage.AddDiffuse(0.012, 1.0, t => 1 + (0.12 * DemoMath.Sine(t * 0.13)));
        Leaves(stage);
        stage.Place(Water.Stream(stage, _ => 0.35, 180, 900), 0, Direction.At(-32, 0.05), 0.05);
        Water.Laps(stage, 2.3, 0.012);
        Birds(scene);
        Bat(scene);
        new Surroundings(stage.Rate, 0.9, 4200, 1.4).AddTo(stage, 0.07);
        stage.Scale(DemoMath.Gain(-17));
        stage.AddSelfNoise(-95, -87);
        scene.Note("quiet water and weir", 0.2, 17.5, -32, -32);
        return scene;
    }

    private static void Leaves(SoundStage stage)
    {
        // Two unrelated rustles, each breathing by itself.
        foreach (var channel in new[] { stage.Mid, stage.Side })
        {
            var random = stage.Random.Branch();
            var filter = new StateVariableFilter(stage.Rate, 4800, 0.5);
            var (breath, flutter) = (0.0, 0.0);
            for (var i = 0; i < stage.Length; i++)
            {
                if (i % 64 == 0)
                {
                    breath += (random.White() - breath) * (64.0 * 1.2 / stage.Rate);
                    flutter += (random.White() - flutter) * (64.0 * 55 / stage.Rate);
                }

                var force = Math.Max(0, 0.3 + (4.5 * breath)) * (1 + (1.2 * flutter));
                channel[i] += 0.006 * force * filter.Step(random.White());
            }
        }
    }

    private static void Birds(DemoScene scene)
    {
        var stage = scene.Stage;
        var random = stage.Random.Branch();
        foreach (var (at, azimuth, level) in new[] { (1.4, 52.0, 0.11), (6.3, 50.0, 0.1), (11.9, 54.0, 0.12) })
            Warble(stage, random, at, azimuth, level);
        foreach (var (at, azimuth, level) in new[] { (3.6, -63.0, 0.05), (4.9, -60.0, 0.045), (9.2, -15.0, 0.04), (14.6, -58.0, 0.055), (15.7, -61.0, 0.05) })
            Whistle(stage, random, at, azimuth, level);
        scene.Note("wren", 1.3, 2.6, 52);
        scene.Note("second song", 11.8, 2.6, 54);
    }

    /// <summary>A fast song: trills of short sweeps between 3 and 8 kHz, with a second harmonic to 16 kHz.</summary>
    private static void Warble(SoundStage stage, DemoRandom random, double at, double azimuth, double level)
    {
        var song = stage.Sound(3);
        var (time, phrase) = (0.0, 0);
        while (time < 2.2)
        {
            var (low, high) = (random.Between(2900, 4600), random.Between(5200, 8200));
            var (notes, length) = (3 + (int)(random.Unit() * 9), random.Between(0.028, 0.075));
            for (var n = 0; n < notes && time < 2.4; n++, time += length * 1.25)
                Chirp(song, stage.Rate, time, length, high, low, level * random.Between(0.7, 1) * (phrase == 0 ? 0.6 : 1), 0.18);
            time += random.Between(0.02, 0.08);
            phrase++;
        }

        stage.Place(song, stage.Frame(at), Direction.At(azimuth), 0.5);
    }

    private static void Whistle(SoundStage stage, DemoRandom random, double at, double azimuth, double level)
    {
        var call = stage.Sound(1.2);
        var pitch = random.Between(2500, 3100);
        Chirp(call, stage.Rate, 0, 0.16, pitch, pitch * 1.28, level, 0.05);
        Chirp(call, stage.Rate, 0.22, 0.3, pitch * 1.42, pitch * 0.9, level, 0.05);
        stage.Place(call, stage.Frame(at), Direction.At(azimuth), 0.8);
    }

    private static void Bat(DemoScene scene)
    {
        var stage = scene.Stage;
        var random = stage.Random.Branch();
        const double From = 7.4, To = 11.2;
        for (var at = From; at < To; at += random.Between(0.075, 0.1))
        {
            var call = stage.Sound(0.02);
            Chirp(call, stage.Rate, 0, 0.007, 30500, 18400, 0.035 * DemoMath.Hump(at, From - 0.2, To + 0.2), 0);
            stage.Place(call, stage.Frame(at), Direction.At(-70 + (115 * (at - From) / (To - From))));
        }

        scene.Note("bat, 18 to 30 kHz", From, To - From, -70, 45, marked: false);
    }

    private static void Chirp(double[] target, int rate, double at, double seconds, double fromHertz, double toHertz, double level, double harmonic)
    {
        var (first, length, turns) = ((int)(at * rate), (int)(seconds * rate), 0.0);
        for (var i = 0; i < length && first + i < target.Length; i++)
        {
            var along = (double)i / length;
            turns += (fromHertz + ((toHertz - fromHertz) * along)) / rate;
            target[first + i] += level * DemoMath.Hump(along, 0, 1) * (DemoMath.Sine(turns) + (harmonic * DemoMath.Sine(2 * turns)));
        }
    }
}
