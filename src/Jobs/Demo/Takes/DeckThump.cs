namespace Athwart.Jobs.Demo.Takes;

/// <summary>Take 7: cars rumble over the planks of the bridge deck; the recorder loses its power before the second is gone.</summary>
internal static class DeckThump
{
    private static readonly Mode[] Plank = [new(52, 0.11, 1), new(88, 0.08, 0.9), new(143, 0.05, 0.6), new(231, 0.035, 0.45), new(412, 0.02, 0.25), new(655, 0.014, 0.15)];

    public static DemoScene Build(ulong seed)
    {
        var scene = new DemoScene(new SoundStage(48000, 9.3, seed));
        var stage = scene.Stage;
        stage.AddDiffuse(0.004, 0.65);
        Car(scene, 2.4, 1, "first car");
        Car(scene, 7.2, 0.85, "second car");
        Water.Laps(stage, 1.6, 0.012);
        new Surroundings(stage.Rate, 0.8, 1800, 0.9).AddTo(stage, 0.05);
        stage.Scale(DemoMath.Gain(-6.5));
        stage.AddSelfNoise(-95, -88);
        return scene;
    }

    private static void Car(DemoScene scene, double at, double gain, string label)
    {
        var stage = scene.Stage;
        var random = stage.Random.Branch();
        var passing = stage.Sound(5);
        var tyres = new SlopedNoise(stage.Rate, 0.7, stage.Random.Branch());
        for (var i = 0; i < passing.Length; i++)
            passing[i] = 0.22 * gain * DemoMath.Hump((double)i / stage.Rate, 0, 5) * tyres.Next();
        stage.PlaceMoving(passing, stage.Frame(at - 2.2), t => Direction.Passing(7 - (6.5 * (t - at + 2.2) * 0.5), 3), 0.2);
        for (var axle = 0; axle < 2; axle++)
        {
            for (var plank = 0; plank < 5; plank++)
            {
                var when = at + (0.42 * axle) + (0.083 * plank) + random.Between(-0.006, 0.006);
                Thump(stage, random, when, gain * (plank == 0 ? 1 : random.Between(0.25, 0.6)), 26 - (13 * plank));
            }
        }

        scene.Note(label, at - 0.3, 1.8, 26, -26);
    }

    private static void Thump(SoundStage stage, DemoRandom random, double at, double gain, double azimuth)
    {
        var thump = stage.Sound(0.9);
        var pitch = random.Between(0.9, 1.12);
        Strike.Ring(thump, 0, stage.Rate, 0.5 * gain, [.. Plank.Select(m => m with { Hertz = m.Hertz * pitch })]);
        Strike.Puff(thump, 0, stage.Rate, 0.4 * gain, 350, 0.6, 0.018, random);

        // Loose bolts chatter after the blow.
        for (var n = 0; n < 5; n++)
        {
            var after = stage.Frame(random.Between(0.015, 0.12));
            Strike.Ring(thump, after, stage.Rate, 0.03 * gain * random.Unit(), [new(1480, 0.02, 1), new(2710, 0.018, 0.8), new(4390, 0.012, 0.6)]);
        }

        stage.Place(thump, stage.Frame(at), Direction.At(azimuth), 0.4);
    }
}
