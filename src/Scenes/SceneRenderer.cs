using Athwart.Quantities;
using Athwart.Scenes.Faults;
using Athwart.Scenes.Rendering;

namespace Athwart.Scenes;

/// <summary>Renders scenes.</summary>
public static class SceneRenderer
{
    /// <summary>Renders a scene in memory, on the calling thread.</summary>
    /// <param name="scene">What is to be heard and what goes wrong.</param>
    /// <returns>Two planes and the truth; the same for the same scene and seed.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A rate, length, share or level lies outside its range.</exception>
    public static RenderedScene Render(Scene scene)
    {
        ArgumentNullException.ThrowIfNull(scene);
        Check(scene);
        var prepared = scene.Faults.Aggregate(scene, (changed, fault) => fault.Prepare(changed));
        var take = new WorkingTake(prepared);
        new SourceField(take).AddAll();
        Apply(take, FaultStage.Sources);
        new AmbienceField(take).AddAll();
        Apply(take, FaultStage.Pressure);
        Record(take);
        Apply(take, FaultStage.Recorded);
        return Finished(scene, take);
    }

    private static void Record(WorkingTake take)
    {
        var electronics = new Electronics(take);
        ForBoth(electronics.Capture);
        Apply(take, FaultStage.Gain);
        Apply(take, FaultStage.Electrical);
        ForBoth(electronics.PassInput);
        Apply(take, FaultStage.BeforeConverter);
        take.Crop();
        ForBoth(role => electronics.Convert(role, report: true));
    }

    private static RenderedScene Finished(Scene scene, WorkingTake take)
    {
        ForBoth(role => new Electronics(take).Convert(role, report: false));
        return new()
        {
            Scene = scene,
            SampleRateHertz = scene.SampleRateHertz,
            Channels = [Array.ConvertAll(take.Mid, sample => (float)sample), Array.ConvertAll(take.Side, sample => (float)sample)],
            Truth = new()
            {
                Items = [.. take.FinishedItems().OrderBy(item => item.Range.From)],
                Sources = [.. take.Scene.Sources.Select(source => SourceTracks.Of(source, take))],
                SideGainDecibels = scene.Rig.SideGainDecibels,
                RecordedSideGainDecibels = scene.Rig.SideGainDecibels + take.SideGainChange,
            },
        };
    }

    private static void Apply(WorkingTake take, FaultStage stage)
    {
        for (var i = 0; i < take.Scene.Faults.Count; i++)
        {
            if (take.Scene.Faults[i] is var fault && fault.Stage == stage)
                fault.Apply(take, take.Chance("fault", i));
        }
    }

    private static void ForBoth(Action<ChannelRole> action)
    {
        action(ChannelRole.Mid);
        action(ChannelRole.Side);
    }

    private static void Check(Scene scene)
    {
        if (scene.SampleRateHertz is < 8000 or > 384000)
            throw new ArgumentOutOfRangeException(nameof(scene), scene.SampleRateHertz, "a scene's rate lies between 8000 and 384000 Hz");
        if (!(scene.LengthSeconds is > 0 and <= 3600))
            throw new ArgumentOutOfRangeException(nameof(scene), scene.LengthSeconds, "a scene lasts up to an hour");
        if (!(scene.SpeedOfSound is > 200 and < 500))
            throw new ArgumentOutOfRangeException(nameof(scene), scene.SpeedOfSound, "sound in air travels at 200 to 500 m/s");
        if (!(scene.Rig.MidOmniShare is >= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(scene), scene.Rig.MidOmniShare, "the omni share lies between 0 and 1");
    }
}
