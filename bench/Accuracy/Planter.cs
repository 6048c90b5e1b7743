using Athwart.Quantities;
using Athwart.Scenes;
using Athwart.Scenes.Faults;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rendering;
using Athwart.Scenes.Rigs;

namespace Athwart.Accuracy;

/// <summary>Puts faults into a take and rounds it to its word.</summary>
internal static class Planter
{
    /// <summary>The finished planes and the truth.</summary>
    public static (float[] Mid, float[] Side, IReadOnlyList<TruthItem> Truth) Finish(BaseTake source, IReadOnlyList<Fault> faults)
    {
        var take = new WorkingTake(source.Scene with { LengthSeconds = source.Frames / (double)source.Rate, Faults = faults });
        source.Mid.CopyTo(take.Mid.AsSpan(take.Lead));
        source.Side.CopyTo(take.Side.AsSpan(take.Lead));
        AddPressure(take, source.Scene.Rig);
        foreach (var stage in (FaultStage[])[FaultStage.Sources, FaultStage.Gain, FaultStage.Electrical, FaultStage.BeforeConverter])
            Apply(take, stage);
        take.Crop();
        var electronics = new Electronics(take);
        foreach (var role in WorkingTake.Roles(null))
            electronics.Convert(role, report: true);
        Apply(take, FaultStage.Recorded);
        foreach (var role in WorkingTake.Roles(null))
            electronics.Convert(role, report: false);
        return (Array.ConvertAll(take.Mid, x => (float)x), Array.ConvertAll(take.Side, x => (float)x), [.. take.FinishedItems()]);
    }

    /// <summary>Wind and thumps go through the capsules' low ends; one pascal is full scale here.</summary>
    private static void AddPressure(WorkingTake take, Rig rig)
    {
        if (!take.Scene.Faults.Any(f => f.Stage == FaultStage.Pressure))
            return;
        var (mid, side) = (take.Mid, take.Side);
        (take.Mid, take.Side) = (new double[mid.Length], new double[side.Length]);
        Apply(take, FaultStage.Pressure);
        foreach (var (role, sound) in ((ChannelRole, double[])[])[(ChannelRole.Mid, mid), (ChannelRole.Side, side)])
        {
            var channel = rig.Channel(role);
            new FilterChain(FilterDesigns.High(channel.LowCornerHertz, take.Rate, channel.LowCornerOrder)).Run(take.Plane(role));
            for (var i = 0; i < sound.Length; i++)
                take.Plane(role)[i] += sound[i];
        }
    }

    private static void Apply(WorkingTake take, FaultStage stage)
    {
        for (var i = 0; i < take.Scene.Faults.Count; i++)
        {
            if (take.Scene.Faults[i] is var fault && fault.Stage == stage)
                fault.Apply(take, take.Chance("fault", i));
        }
    }
}
