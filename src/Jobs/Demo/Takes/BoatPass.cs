using Athwart.Quantities;

namespace Athwart.Jobs.Demo.Takes;

/// <summary>Take 3: a narrowboat passes from left to right, its slow engine firing ten times a second, water washing behind it.</summary>
internal static class BoatPass
{
    private const double Seconds = 22;
    private const double AheadMetres = 4;
    private const double OuterMetres = AheadMetres * 2.7474774194546216;

    public static DemoScene Build(ulong seed)
    {
        var scene = new DemoScene(new SoundStage(48000, Seconds, seed));
        var stage = scene.Stage;
        stage.AddDiffuse(0.0025, 0.6);
        stage.PlaceMoving(Engine(stage), 0, t => Where(t, 0), 0.25);
        Wash(stage);
        new Surroundings(stage.Rate, 0.7, 2500, 1).AddTo(stage, 0.03);
        stage.Scale(DemoMath.Gain(-8));
        stage.AddSelfNoise(-95, -88);
        Wind(scene);
        scene.Note("boat passes", 0, Seconds, 70, -70, marked: false);
        scene.Note("abeam", (Seconds / 2) - 1, 2, 14.0, -14.0);
        return scene;
    }

    /// <summary>The engine, or something a number of seconds behind it, on its straight way.</summary>
    private static Direction Where(double t, double behindSeconds) =>
        Direction.Passing(OuterMetres * (1 - (2 * (t - behindSeconds) / Seconds)), AheadMetres);

    private static double[] Engine(SoundStage stage)
    {
        var random = stage.Random.Branch();
        var pulses = stage.Sound(Seconds);
        var chuff = stage.Sound(Seconds);
        var drift = 0.0;
        for (var (at, beat) = (0.02, 0); at < Seconds - 0.1; beat++)
        {
            drift += 0.15 * (random.White() - drift);
            var strength = ((beat & 1) == 0 ? 1 : 0.8) * random.Between(0.88, 1.1);
            Strike.Ring(pulses, stage.Frame(at), stage.Rate, strength, [new(61, 0.03, 1), new(97, 0.022, 0.7), new(163, 0.014, 0.5), new(290, 0.008, 0.3)]);
            Strike.Puff(chuff, stage.Frame(at) + 60, stage.Rate, strength * 0.28, 520, 0.8, 0.018, random);
            Strike.Puff(chuff, stage.Frame(at + random.Between(0.028, 0.034)), stage.Rate, strength * 0.05, 2600, 1.2, 0.004, random);
            at += 0.1 * (1 + (0.012 * drift) + random.Between(-0.006, 0.006));
        }

        var pipe = new StateVariableFilter(stage.Rate, 430, 4);
        for (var i = 0; i < pulses.Length; i++)
            pulses[i] += chuff[i] + (0.7 * pipe.Step(chuff[i]));
        return pulses;
    }

    private static void Wash(SoundStage stage)
    {
        stage.PlaceMoving(Water.Stream(stage, _ => 0.75, 260, 1400), 0, t => Scaled(Where(t, 1.4), 0.16), 0.04);
        stage.PlaceMoving(Water.Stream(stage, _ => 0.4, 500, 3200), 0, t => Scaled(Where(t, -2.2), 0.07), 0.02);
        Water.Bubbles(stage, 0, Seconds, _ => 70, 70, (t, r) => Where(t, 1.4 + r.Between(0, 1.6)), 6, 0.12);

        // The bank answers with laps for some seconds after the hull has gone by.
        Water.Bubbles(stage, 11, Seconds, t => 60 * DemoMath.Hump(t, 11, 24), 60, (_, r) => Direction.At(r.Between(-75, 75)), 4, 0.07);
        stage.AddDiffuse(0.014, 0.35, t => DemoMath.Hump(t, 10.5, 23));
        var random = stage.Random.Branch();
        for (var at = 11.2; at < 21; at += random.Between(0.25, 0.8))
        {
            var wave = stage.Sound(1.1);
            Water.Surge(wave, stage.Rate, 0.12 * DemoMath.Hump(at, 10, 23) * random.Between(0.3, 1), random.Between(350, 1500), 0, random.Between(0.4, 1), random);
            stage.Place(wave, stage.Frame(at), Direction.At(random.Between(-80, 80)), 0.1);
        }
    }

    private static Direction Scaled(Direction d, double gain) => new(d.Mid * gain, d.Side * gain);

    /// <summary>A gust in the open figure-8: wind moves its membrane far more than the mid's.</summary>
    private static void Wind(DemoScene scene)
    {
        const double From = 16.6, To = 20.4;
        var stage = scene.Stage;
        var random = stage.Random.Branch();
        var first = new StateVariableFilter(stage.Rate, 26, 0.6);
        var second = new StateVariableFilter(stage.Rate, 38, 0.7);
        for (var i = stage.Frame(From); i < stage.Frame(To); i++)
        {
            first.Step(random.White());
            second.Step(first.Low);
            stage.Side[i] += 2.6 * DemoMath.Hump((double)i / stage.Rate, From, To) * second.Low;
        }

        var range = FrameRange.FromFrames(stage.Frame(From), stage.Frame(To));
        scene.Plant("wind", ChannelRole.Side, range, 40, "Hz", "A gust in the side, below about 40 Hz.");
    }
}
