using Athwart.Quantities;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Surroundings;

namespace Athwart.Scenes.Rendering;

/// <summary>Adds the plane waves of diffuse fields.</summary>
internal sealed class AmbienceField(WorkingTake take)
{
    private readonly Scene _scene = take.Scene;
    private readonly Capsule _mid = new(take.Scene.Rig, ChannelRole.Mid);
    private readonly Capsule _side = new(take.Scene.Rig, ChannelRole.Side);

    public void AddAll()
    {
        for (var i = 0; i < _scene.Ambience.Count; i++)
            Add(_scene.Ambience[i], take.Chance("ambience", i));
    }

    // All waves have the same spectrum, so white waves are summed first and the sums are filtered: the order makes no difference.
    private void Add(DiffuseField field, Chance chance)
    {
        var directions = field.Directions(chance);
        var (mid, side) = (new double[take.Mid.Length], new double[take.Side.Length]);
        for (var i = 0; i < directions.Count; i++)
            AddWave(chance.Fork("wave", i), directions[i], mid, side);
        var rms = Levels.Pascal(field.LevelDecibels) / Math.Sqrt(directions.Count * field.Chain(take.Rate).WhitePowerGain(take.Rate));
        AddFiltered(mid, field.Chain(take.Rate), rms, take.Mid);
        AddFiltered(side, field.Chain(take.Rate), rms, take.Side);
    }

    private static void AddFiltered(double[] sum, FilterChain chain, double scale, double[] plane)
    {
        for (var i = 0; i < plane.Length; i++)
            plane[i] += scale * chain.Next(sum[i]);
    }

    private void AddWave(Chance chance, Place towards, double[] mid, double[] side)
    {
        var wave = new double[mid.Length + FractionalDelay.Taps];
        for (var i = 0; i < wave.Length; i++)
            wave[i] = chance.Normal();
        AddTo(mid, wave, _mid, towards, 0);
        AddTo(side, wave, _side, towards, -(_side.Place - _mid.Place).Dot(towards) / _scene.SpeedOfSound * take.Rate);
    }

    private void AddTo(double[] plane, double[] wave, Capsule capsule, Place towards, double delay)
    {
        var (gain, weight, state) = (capsule.Gain(towards), capsule.BeamWeight(towards, take.Rate), 0.0);
        var shift = FractionalDelay.Half - delay;
        var whole = shift == Math.Floor(shift);
        for (var i = 0; i < plane.Length; i++)
        {
            var value = gain * (whole ? wave[Math.Clamp(i + (int)shift, 0, wave.Length - 1)] : FractionalDelay.At(wave, i + shift));
            state += weight * (value - state);
            plane[i] += capsule.Beams ? state : value;
        }
    }
}
