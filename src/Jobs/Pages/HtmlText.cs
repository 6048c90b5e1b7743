using System.Globalization;
using Athwart.Figures;

namespace Athwart.Jobs.Pages;

/// <summary>Writes markup; whatever is put in through <c>{value}</c> holes is escaped, <see cref="Raw"/> is not.</summary>
internal sealed class HtmlText(TextWriter writer)
{
    public HtmlText Add(FormattableString markup)
    {
        var arguments = new object?[markup.ArgumentCount];
        for (var i = 0; i < arguments.Length; i++)
            arguments[i] = Markup.Escape(Convert.ToString(markup.GetArgument(i), CultureInfo.InvariantCulture) ?? "");
        writer.Write(string.Format(CultureInfo.InvariantCulture, markup.Format, arguments));
        return this;
    }

    public HtmlText Raw(string markup)
    {
        writer.Write(markup);
        return this;
    }
}
