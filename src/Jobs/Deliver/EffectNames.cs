using System.Globalization;
using Athwart.Jobs.Deliver.Metadata;
using Athwart.Jobs.Deliver.Naming;
using Athwart.Jobs.Render;
using Athwart.Jobs.Sessions;

namespace Athwart.Jobs.Deliver;

/// <summary>The file names of one effect.</summary>
/// <param name="Stereo">The decoded stereo.</param>
/// <param name="MidSide">The raw pair.</param>
/// <param name="Mono">The mono.</param>
/// <param name="Recipe">The recipe of the stereo.</param>
/// <param name="MonoRecipe">The recipe of the mono.</param>
internal sealed record EffectFileNames(string Stereo, string MidSide, string Mono, string Recipe, string MonoRecipe);

/// <summary>Names the files of each effect from the template, one after the other, so that no two collide.</summary>
internal sealed class EffectNames(DeliverRequest request)
{
    private readonly NameTemplate _template = NameTemplate.Parse(request.Template);
    private readonly FileNames _names = new();

    /// <summary>Names the next effect.</summary>
    public EffectFileNames Next(SessionTake take, EffectPlan effect, EffectMetadata metadata, string session, int rate, OutputWord word)
    {
        string Base(string kind)
        {
            var filled = _template.Fill(Values(take, effect, metadata, session, rate, word, kind));
            return _names.Unique(_template.NamesKind ? filled : filled + "_" + kind);
        }

        var stereo = Base("stereo");
        var midside = Base("midside");
        var mono = request.Mono || take.Roles.SideChannel is null ? Base("mono") : "";
        return new(stereo + ".wav", midside + ".wav", mono + ".wav", stereo + ".recipe.json", mono + ".recipe.json");
    }

    private Dictionary<string, string> Values(SessionTake take, EffectPlan effect, EffectMetadata metadata, string session, int rate, OutputWord word, string kind)
    {
        var source = take.Description;
        // Whole takes go by their own name; saying it twice in a file name helps nobody.
        var name = string.Equals(effect.Name, take.Name, StringComparison.Ordinal) ? "" : effect.Name;
        var usesTake = _template.Text.Contains("{take}", StringComparison.Ordinal);
        return new(StringComparer.Ordinal)
        {
            ["project"] = metadata.Project,
            ["session"] = session,
            ["date"] = source.Broadcast?.OriginationDate is { Length: > 0 } date ? date : effect.SessionDate.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            ["time"] = (source.Broadcast?.OriginationTime ?? "").Replace(':', '-'),
            ["scene"] = source.Production?.Scene ?? "",
            ["take"] = take.Name,
            ["effect"] = usesTake ? name : effect.Name,
            ["kind"] = kind,
            ["index"] = effect.Index.ToString(CultureInfo.InvariantCulture),
            ["side"] = double.IsNegativeInfinity(effect.SideLevel.Value) ? "mono" : string.Create(CultureInfo.InvariantCulture, $"{effect.SideLevel.Value:+0.#;-0.#;0}dB"),
            ["rate"] = rate.ToString(CultureInfo.InvariantCulture),
            ["word"] = word.Name(),
            ["category"] = request.Category,
            ["recordist"] = metadata.Recordist,
        };
    }
}
