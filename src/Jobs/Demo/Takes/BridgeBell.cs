using Athwart.Quantities;

namespace Athwart.Jobs.Demo.Takes;

/// <summary>Take 4: the warning bell, then the motor that lifts the bridge; in floating point, with peaks of the bell over full scale.</summary>
internal static class BridgeBell
{
    private const double MotorFrom = 4.6, MotorTo = 14.2;
    private static readonly Mode[] Bell =
        [new(417, 0.55, 0.32), new(829, 0.5, 0.8), new(991, 0.32, 0.55), new(1246, 0.25, 0.3), new(1667, 0.3, 0.6), new(2241, 0.16, 0.4), new(2512, 0.14, 0.3), new(3390, 0.09, 0.3), new(4480, 0.06, 0.2), new(6240, 0.035, 0.15)];

    public static DemoScene Build(ulong seed)
    {
        var scene = new DemoScene(new SoundStage(48000, 16, seed));
        var stage = scene.Stage;
        stage.AddDiffuse(0.002, 0.65);
        Bells(scene);
        stage.Place(Motor(stage), 0, Direction.At(-20), 0.2);
        scene.Note("motor", MotorFrom, MotorTo - MotorFrom, -20);
        Seat(scene);
        Water.Laps(stage, 2, 0.012);
        new Surroundings(stage.Rate, 0.9, 3600, 0.8).AddTo(stage, 0.05);
        stage.Scale(DemoMath.Gain(3.6));
        stage.AddSelfNoise(-94, -87);
        Offset(scene);
        Over(scene);
        return scene;
    }

    private static void Bells(DemoScene scene)
    {
        var stage = scene.Stage;
        var random = stage.Random.Branch();
        for (var at = 0.8; at < 7.6; at += 0.47 + random.Between(-0.012, 0.012))
        {
            var strike = stage.Sound(3.5);
            var gain = random.Between(0.8, 1);
            Strike.Ring(strike, 0, stage.Rate, gain, Bell);

            // A cast bell is never quite round: each pitch is a close pair, and the pair beats.
            Strike.Ring(strike, 0, stage.Rate, gain * 0.4, [new(831.3, 0.5, 0.8), new(418.1, 0.5, 0.3), new(1670.5, 0.3, 0.5)]);
            Strike.Puff(strike, 0, stage.Rate, gain * 0.5, 3800, 0.6, 0.004, random);
            stage.Place(strike, stage.Frame(at), Direction.At(35), 0.35);
        }

        scene.Note("bell", 0.75, 8.4, 35);
    }

    private static double[] Motor(SoundStage stage)
    {
        var random = stage.Random.Branch();
        var rumble = new SlopedNoise(stage.Rate, 0.8, stage.Random.Branch());
        var grind = new StateVariableFilter(stage.Rate, 900, 1.5);
        var sound = new double[stage.Length];
        var (shaft, load, hum) = (0.0, 0.0, 0.0);
        for (var i = 0; i < sound.Length; i++)
        {
            var t = (double)i / stage.Rate;
            var speed = DemoMath.Rise(t, MotorFrom, MotorFrom + 1.6) * (1 - DemoMath.Rise(t, MotorTo - 0.9, MotorTo));
            if (speed <= 0)
                continue;
            if (i % 64 == 0)
                load += (random.White() - load) * (64.0 * 4 / stage.Rate);
            shaft += 24.3 * speed * (1 + (0.03 * load)) / stage.Rate;
            hum += 100.0 / stage.Rate;
            var teeth = DemoMath.Sine(shaft * 13) + (0.5 * DemoMath.Sine(shaft * 26)) + (0.3 * DemoMath.Sine(shaft * 39)) + (0.22 * DemoMath.Sine(shaft * 53));
            var magnets = DemoMath.Sine(hum) + (0.5 * DemoMath.Sine(2 * hum)) + (0.2 * DemoMath.Sine(3 * hum));
            var turn = 1 + (0.35 * DemoMath.Sine(shaft)) + (0.2 * DemoMath.Sine(shaft / 4));
            var roughness = grind.Step(random.White()) * (0.5 + Math.Abs(DemoMath.Sine(shaft * 6.5)));
            sound[i] = speed * ((0.05 * teeth * turn * (1 + load)) + (0.05 * magnets) + (0.16 * roughness * turn) + (0.16 * rumble.Next()));
        }

        return sound;
    }

    private static void Seat(DemoScene scene)
    {
        var stage = scene.Stage;
        var thud = stage.Sound(1.6);
        Strike.Ring(thud, 0, stage.Rate, 0.5, [new(47, 0.2, 1), new(78, 0.14, 0.8), new(131, 0.09, 0.5), new(388, 0.07, 0.2), new(702, 0.05, 0.15), new(1190, 0.04, 0.1)]);
        Strike.Puff(thud, 0, stage.Rate, 0.35, 300, 0.6, 0.03, stage.Random.Branch());
        stage.Place(thud, stage.Frame(MotorTo + 0.15), Direction.At(4), 0.6);
        scene.Note("brake", MotorTo + 0.1, 1.5, 4);
    }

    private static void Offset(DemoScene scene)
    {
        const double Size = 0.006;
        for (var i = 0; i < scene.Stage.Length; i++)
            scene.Stage.Side[i] += Size;
        scene.Plant("dc-offset", ChannelRole.Side, null, Size, "of full scale", "The side's input stands 0.6 % of full scale off zero.");
    }

    private static void Over(DemoScene scene)
    {
        var (first, last, largest) = (-1, -1, 0.0);
        for (var i = 0; i < scene.Stage.Length; i++)
        {
            var level = Math.Max(Math.Abs(scene.Stage.Mid[i]), Math.Abs(scene.Stage.Side[i]));
            largest = Math.Max(largest, level);
            if (level <= 1)
                continue;
            first = first < 0 ? i : first;
            last = i;
        }

        scene.Plant("over-full-scale", null, FrameRange.FromFrames(first, last + 1), largest, "of full scale", "Peaks of the bell over full scale, which floating point keeps whole.");
    }
}
