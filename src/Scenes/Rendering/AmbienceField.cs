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

    private void Add(DiffuseField field, Chance chance)
    {
        var directions = field.Directions(chance);
        var rms = Levels.Pascal(field.LevelDecibels) / Math.Sqrt(directions.Count);
        for (var i = 0; i < directions.Count; i++)
            AddWave(new ShapedNoise(chance.Fork("wave", i), field.Chain(take.Rate), take.Rate, rms), directions[i]);
    }

    private void AddWave(ShapedNoise noise, Place towards)
    {
        var wave = noise.Take(take.Mid.Length + FractionalDelay.Taps);
        AddTo(take.Mid, wave, _mid, towards, 0);
        AddTo(take.Side, wave, _side, towards, -(_side.Place - _mid.Place).Dot(towards) / _scene.SpeedOfSound * take.Rate);
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
